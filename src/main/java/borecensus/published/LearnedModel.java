package borecensus.published;

import borecensus.domain.EngineHistory;
import borecensus.normalise.WarmProtocol;
import borecensus.norms.FleetNorms;
import borecensus.norms.ProtocolDays;
import borecensus.screening.ModelledEngine;
import borecensus.screening.ResidualEngine;
import borecensus.screening.TransposedCylinders;
import java.io.Serializable;

/**
 * What a fleet has taught, as far as judging one engine needs it.
 *
 * @param warmProtocol which families are tested warm
 * @param protocolDays days that were off as a whole
 */
public record LearnedModel(WarmProtocol warmProtocol, ProtocolDays protocolDays, FleetNorms norms)
    implements Serializable {

  /** A history with the doubts that only the fleet can raise. */
  public EngineHistory doubted(EngineHistory history) {
    EngineHistory doubted = protocolDays.apply(warmProtocol.apply(history));
    return norms.family(history.familyId()).isEmpty()
        ? doubted
        : TransposedCylinders.doubt(doubted, norms);
  }

  /** The same of an engine of a known family, with its residuals against the norm. */
  public ModelledEngine believed(EngineHistory history) {
    return TransposedCylinders.believed(protocolDays.apply(warmProtocol.apply(history)), norms);
  }

  /** The same as far as the residuals, for whoever needs no more of it. */
  public ResidualEngine residuals(EngineHistory history) {
    return TransposedCylinders.residuals(protocolDays.apply(warmProtocol.apply(history)), norms);
  }
}

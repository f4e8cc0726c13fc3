package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.normalise.WarmProtocol;
import borecensus.norms.FleetNorms;
import borecensus.screening.TransposedCylinders;
import java.io.Serializable;

/** What the fleet has taught this night, as it is sent to every worker. */
record NightModel(WarmProtocol warmProtocol, FleetNorms norms) implements Serializable {

  /** A history with the doubts that only the fleet can raise. */
  EngineHistory doubted(EngineHistory history) {
    EngineHistory warm = warmProtocol.apply(history);
    return norms.family(history.familyId()).isEmpty()
        ? warm
        : TransposedCylinders.doubt(warm, norms);
  }
}

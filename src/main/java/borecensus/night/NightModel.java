package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.normalise.WarmProtocol;
import borecensus.norms.FleetNorms;
import borecensus.norms.NormEstimator;
import borecensus.norms.PressureCheck;
import borecensus.norms.Priors;
import borecensus.norms.ProtocolDays;
import borecensus.published.LearnedModel;
import borecensus.screening.ModelledEngine;
import borecensus.screening.ResidualEngine;
import java.io.Serializable;
import java.util.List;
import java.util.Map;

/** What the fleet has taught this night, as it is sent to every worker. */
record NightModel(
    WarmProtocol warmProtocol,
    ProtocolDays protocolDays,
    FleetNorms norms,
    PressureCheck pressureCheck)
    implements Serializable {

  /** Learns from a sample; days that are off as a whole are found by norms and left out of them. */
  static NightModel learn(
      List<EngineHistory> sample, Map<String, Family> families, Map<String, Gauge> gauges) {
    Priors priors = Priors.load();
    WarmProtocol warm = WarmProtocol.learn(sample);
    List<EngineHistory> warmed = sample.parallelStream().map(warm::apply).toList();
    FleetNorms norms = NormEstimator.estimate(warmed, families, gauges, priors);
    ProtocolDays days = ProtocolDays.learn(warmed, norms);
    List<EngineHistory> believed =
        days.isEmpty() ? warmed : warmed.stream().map(days::apply).toList();
    FleetNorms better =
        days.isEmpty() ? norms : NormEstimator.estimate(believed, families, gauges, priors);
    return new NightModel(warm, days, better, PressureCheck.of(believed, better));
  }

  /** What is published of it, to judge single engines by. */
  LearnedModel learned() {
    return new LearnedModel(warmProtocol, protocolDays, norms);
  }

  /** The same with other norms. */
  NightModel with(FleetNorms newNorms) {
    return new NightModel(warmProtocol, protocolDays, newNorms, pressureCheck);
  }

  /** A history with the doubts that only the fleet can raise. */
  EngineHistory doubted(EngineHistory history) {
    return learned().doubted(history);
  }

  /** The same of an engine of a known family, with its residuals against the norm. */
  ModelledEngine believed(EngineHistory history) {
    return learned().believed(history);
  }

  /** The same as far as the residuals. */
  ResidualEngine residuals(EngineHistory history) {
    return learned().residuals(history);
  }
}

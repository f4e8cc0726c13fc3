package borecensus.evaluate;

import borecensus.domain.EngineHistory;
import borecensus.normalise.WarmProtocol;
import borecensus.norms.FleetNorms;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.screening.Screening;
import borecensus.screening.TransposedCylinders;
import java.time.Duration;
import java.util.List;

/**
 * The night's own steps from normalised histories to probabilities.
 *
 * @param histories as screened, in the fleet's order
 * @param probabilities by engine
 * @param wallSeconds from the first step to the last
 * @param cpuSeconds of the whole process meanwhile; NaN where the platform does not tell
 */
record Pipeline(
    FleetNorms norms,
    List<EngineHistory> histories,
    double[] probabilities,
    double wallSeconds,
    double cpuSeconds) {

  static Pipeline run(TrueFleet fleet) {
    double wall = System.nanoTime();
    double cpu = processCpuSeconds();
    List<EngineHistory> sheets = fleet.engines().stream().map(TrueEngine::history).toList();
    WarmProtocol warm = WarmProtocol.learn(sheets);
    List<EngineHistory> tested = sheets.stream().map(warm::apply).toList();
    FleetNorms norms =
        NormEstimator.estimate(
            tested, fleet.registers().families(), fleet.registers().gauges(), Priors.load());
    List<EngineHistory> judged =
        tested.parallelStream().map(history -> TransposedCylinders.doubt(history, norms)).toList();
    double[] probabilities =
        judged.parallelStream()
            .mapToDouble(history -> Screening.assess(history, norms).faultProbability())
            .toArray();
    return new Pipeline(
        norms, judged, probabilities, (System.nanoTime() - wall) / 1e9, processCpuSeconds() - cpu);
  }

  private static double processCpuSeconds() {
    return ProcessHandle.current()
        .info()
        .totalCpuDuration()
        .map(Duration::toNanos)
        .map(nanos -> nanos / 1e9)
        .orElse(Double.NaN);
  }
}

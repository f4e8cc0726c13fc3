package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The engines of one family that have trusted tests, in a fixed order.
 *
 * @param engines all of them, for how common faults are
 * @param feeders those whose own usage is known, for the norm
 */
record FamilySample(
    Family family,
    UsageAxis axis,
    FuelPriors priors,
    List<EngineReadings> engines,
    List<Feeder> feeders) {

  /**
   * One engine that the norm is learned from.
   *
   * @param index its place among all engines of the sample
   * @param readings its tests of known usage
   */
  record Feeder(int index, EngineReadings readings) {}

  static FamilySample of(
      Family family, FuelPriors priors, List<EngineHistory> histories, FleetNorms start) {
    UsageAxis axis = axisOf(histories);
    List<EngineReadings> engines =
        histories.stream()
            .filter(h -> !h.trustedTests().isEmpty())
            .map(h -> EngineReadings.of(h, axis, g -> start.gauge(g).resolutionKpa()))
            .toList();
    List<Feeder> feeders =
        IntStream.range(0, engines.size())
            .filter(i -> engines.get(i).ownDistance())
            .mapToObj(i -> new Feeder(i, engines.get(i).withKnownUsage()))
            .filter(f -> f.readings().tests() > 0)
            .toList();
    return new FamilySample(family, axis, priors, engines, feeders);
  }

  /** Hours, when most trusted tests carry hours and no distance. */
  private static UsageAxis axisOf(List<EngineHistory> histories) {
    long tests = 0;
    long hoursOnly = 0;
    for (EngineHistory history : histories) {
      for (CompressionTest test : history.trustedTests()) {
        tests++;
        if (Double.isNaN(test.distanceKm()) && !Double.isNaN(test.engineHours())) {
          hoursOnly++;
        }
      }
    }
    return 2 * hoursOnly > tests ? UsageAxis.HOURS : UsageAxis.KM;
  }

  int tests() {
    return feeders.stream().mapToInt(f -> f.readings().tests()).sum();
  }

  /** Every usage that the norm is learned from, in model units. */
  double[] usages() {
    return feeders.stream()
        .flatMapToDouble(
            f -> IntStream.range(0, f.readings().tests()).mapToDouble(t -> f.readings().usage()[t]))
        .toArray();
  }

  /** The feeders against this norm, in order. */
  List<HealthyModel> models(FamilyNorm norm, FleetNorms norms) {
    return feeders.parallelStream().map(f -> HealthyModel.of(f.readings(), norm, norms)).toList();
  }
}

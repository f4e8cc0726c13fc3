package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
        histories.parallelStream()
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

  /**
   * So many of its engines, chosen by a hash of their names and left in order, those of lowest and
   * highest usage among them, so that the range stays; all of them where there are no more, or
   * where too few of known usage would be left.
   */
  FamilySample part(int most) {
    if (engines.size() <= most) {
      return this;
    }
    Set<Integer> ends = ends();
    int[] kept =
        IntStream.range(0, engines.size())
            .boxed()
            .sorted(
                Comparator.comparing((Integer i) -> !ends.contains(i))
                    .thenComparing(i -> mixed(engines.get(i).engineId()))
                    .thenComparing(i -> i))
            .limit(most)
            .sorted()
            .mapToInt(i -> i)
            .toArray();
    Map<Integer, Feeder> byIndex = new HashMap<>();
    feeders.forEach(f -> byIndex.put(f.index(), f));
    List<Feeder> keptFeeders =
        IntStream.range(0, kept.length)
            .filter(i -> byIndex.containsKey(kept[i]))
            .mapToObj(i -> new Feeder(i, byIndex.get(kept[i]).readings()))
            .toList();
    return 2 * keptFeeders.size() < most
        ? this
        : new FamilySample(
            family, axis, priors, Arrays.stream(kept).mapToObj(engines::get).toList(), keptFeeders);
  }

  /** The engines of lowest and of highest usage. */
  private Set<Integer> ends() {
    Comparator<Feeder> byFirst =
        Comparator.comparingDouble(f -> Arrays.stream(f.readings().usage()).min().orElseThrow());
    Comparator<Feeder> byLast =
        Comparator.comparingDouble(f -> Arrays.stream(f.readings().usage()).max().orElseThrow());
    Set<Integer> ends = new HashSet<>();
    feeders.stream().min(byFirst).ifPresent(f -> ends.add(f.index()));
    feeders.stream().max(byLast).ifPresent(f -> ends.add(f.index()));
    return ends;
  }

  /** A hash of the name that has nothing to do with its order. */
  private static long mixed(String engineId) {
    long hash = engineId.hashCode() * 0x9E3779B97F4A7C15L;
    return (hash ^ (hash >>> 29)) * 0xBF58476D1CE4E5B9L;
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
  List<EngineResiduals> residuals(FamilyNorm norm, FleetNorms norms) {
    return feeders.parallelStream()
        .map(f -> EngineResiduals.of(f.readings(), norm, norms))
        .toList();
  }
}

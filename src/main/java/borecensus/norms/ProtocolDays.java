package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.statistics.Quantiles;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * The days on which everything tested with one gauge was low, or high, together: a tired battery, a
 * closed throttle, a hose that leaked. Engines do not wear by appointment, so it is the measurement
 * that is doubted.
 *
 * <p>At least three engines are needed, three of four of them off the same way, by 4 % or more, and
 * by more than chance allows in 1 of 100 fleets when every day of the fleet is tried (Bonferroni).
 * Where the days of a fleet scatter more than the norms expect, as with weather that no barometer
 * told of, the bound widens with them (an empirical null: Efron, 2004, J. Am. Stat. Assoc.
 * 99:96-104). The most striking day goes first, and what the same engines read on other days is
 * compared anew without it.
 *
 * @param doubts by day, low or high together
 */
public record ProtocolDays(SortedMap<TestDay, Doubt> doubts) implements Serializable {
  private static final int FEWEST_ENGINES = 3;
  private static final double MOST_ALONG = 0.75;
  private static final double FALSE_FLEETS = 0.01;

  /** Smaller shifts are what the variance between tests is for (common practice, no source). */
  private static final double SMALLEST_SHIFT = 0.04;

  /** Fewer days cannot tell how much days scatter. */
  private static final int FEWEST_DAYS = 20;

  private static final double MAD_TO_SD = 1.4826;

  public ProtocolDays {
    doubts = Collections.unmodifiableSortedMap(new TreeMap<>(doubts));
  }

  /** Finds the days in the trusted tests of a sample; engines of unknown families are left out. */
  public static ProtocolDays learn(List<EngineHistory> sample, FleetNorms norms) {
    List<DatedLevels> engines =
        sorted(sample).parallelStream().flatMap(h -> levels(h, norms).stream()).toList();
    SortedMap<TestDay, Doubt> found = new TreeMap<>();
    SortedMap<TestDay, DayShift> next = striking(engines, norms);
    while (!next.isEmpty()) {
      next.forEach(
          (day, s) -> found.put(day, s.log() < 0 ? Doubt.LOW_TOGETHER : Doubt.HIGH_TOGETHER));
      engines = engines.stream().map(e -> e.without(found.keySet())).toList();
      next = striking(engines, norms);
    }
    return new ProtocolDays(found);
  }

  private static Optional<DatedLevels> levels(EngineHistory history, FleetNorms norms) {
    return norms
        .family(history.familyId())
        .filter(norm -> norm.range().engines() > 0 && !history.trustedTests().isEmpty())
        .map(norm -> DatedLevels.of(history, norm, norms));
  }

  /** In a fixed order, so that sums do not depend on how the sample was gathered. */
  private static List<EngineHistory> sorted(List<EngineHistory> sample) {
    return sample.stream()
        .sorted(
            Comparator.comparing(EngineHistory::engineId).thenComparing(EngineHistory::vehicleId))
        .toList();
  }

  /** Whether every day looks like any other. */
  public boolean isEmpty() {
    return doubts.isEmpty();
  }

  /** The same history with the tests of such days in doubt. */
  public EngineHistory apply(EngineHistory history) {
    if (doubts.isEmpty()) {
      return history;
    }
    boolean met = history.tests().stream().anyMatch(t -> doubts.containsKey(TestDay.of(t)));
    return met ? history.withTests(history.tests().stream().map(this::doubted).toList()) : history;
  }

  private CompressionTest doubted(CompressionTest test) {
    Doubt doubt = doubts.get(TestDay.of(test));
    if (doubt == null) {
      return test;
    }
    List<Doubt> all = new ArrayList<>(test.doubts());
    all.add(doubt);
    return test.withDoubts(all);
  }

  /** Days beyond the bound, each the most striking one of all its engines. */
  private static SortedMap<TestDay, DayShift> striking(
      List<DatedLevels> engines, FleetNorms norms) {
    SortedMap<TestDay, DayShift> days = shifts(engines, norms);
    double bound = bound(days.size()) * scatter(days);
    days.values().removeIf(s -> !beyond(s, bound));
    SortedMap<TestDay, DayShift> first = new TreeMap<>(days);
    for (DatedLevels engine : engines) {
      List<TestDay> its = engine.distinctDays().stream().filter(days::containsKey).toList();
      double most = its.stream().mapToDouble(d -> Math.abs(days.get(d).z())).max().orElse(0);
      its.stream().filter(d -> Math.abs(days.get(d).z()) < most).forEach(first::remove);
    }
    return first;
  }

  private static boolean beyond(DayShift shift, double bound) {
    return Math.abs(shift.z()) > bound
        && Math.abs(shift.log()) > SMALLEST_SHIFT
        && shift.shareAlong() >= MOST_ALONG;
  }

  private static SortedMap<TestDay, DayShift> shifts(List<DatedLevels> engines, FleetNorms norms) {
    SortedMap<TestDay, List<DatedLevels.Shift>> byDay = new TreeMap<>();
    for (SortedMap<TestDay, DatedLevels.Shift> engine :
        engines.parallelStream().map(DatedLevels::shifts).toList()) {
      engine.forEach((day, s) -> byDay.computeIfAbsent(day, d -> new ArrayList<>()).add(s));
    }
    SortedMap<TestDay, DayShift> shifts = new TreeMap<>();
    for (Map.Entry<TestDay, List<DatedLevels.Shift>> day : byDay.entrySet()) {
      if (day.getValue().size() >= FEWEST_ENGINES) {
        double error = norms.gauge(day.getKey().gaugeId()).standardErrorLog();
        shifts.put(day.getKey(), DayShift.of(day.getValue(), error * error));
      }
    }
    return shifts;
  }

  private static double bound(int days) {
    double share = FALSE_FLEETS / 2 / Math.max(1, days);
    return -new NormalDistribution(null, 0, 1).inverseCumulativeProbability(share);
  }

  /** By how much the days scatter more than expected; at least 1. */
  static double scatter(SortedMap<TestDay, DayShift> days) {
    double[] sizes = days.values().stream().mapToDouble(s -> Math.abs(s.z())).toArray();
    return sizes.length < FEWEST_DAYS ? 1 : Math.max(1, MAD_TO_SD * Quantiles.median(sizes));
  }
}

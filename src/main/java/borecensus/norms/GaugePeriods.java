package borecensus.norms;

import java.time.LocalDate;
import java.time.Month;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** Cuts the time of each gauge into calendar half-years, joined until they hold enough tests. */
final class GaugePeriods {
  /** With fewer tests an offset could not be told to within half the noise of one. */
  private static final int FEWEST_TESTS = 12;

  private GaugePeriods() {}

  /** The gauges with their periods, all at the gauge's own offset. */
  static SortedMap<String, GaugeOffset> cut(
      SortedMap<String, GaugeOffset> gauges, SortedMap<String, FamilySample> samples) {
    SortedMap<String, SortedMap<LocalDate, Integer>> counts = new TreeMap<>();
    for (FamilySample sample : samples.values()) {
      for (FamilySample.Feeder feeder : sample.feeders()) {
        count(feeder.readings(), counts);
      }
    }
    SortedMap<String, GaugeOffset> cut = new TreeMap<>(gauges);
    counts.forEach(
        (id, byHalf) -> cut.computeIfPresent(id, (g, offset) -> withPeriods(offset, byHalf)));
    return cut;
  }

  private static void count(
      EngineReadings readings, SortedMap<String, SortedMap<LocalDate, Integer>> counts) {
    for (int t = 0; t < readings.tests(); t++) {
      counts
          .computeIfAbsent(readings.gaugeIds()[t], g -> new TreeMap<>())
          .merge(halfYear(readings.conditions()[t].day()), 1, Integer::sum);
    }
  }

  private static LocalDate halfYear(LocalDate day) {
    return LocalDate.of(day.getYear(), day.getMonthValue() <= 6 ? Month.JANUARY : Month.JULY, 1);
  }

  private static GaugeOffset withPeriods(GaugeOffset offset, SortedMap<LocalDate, Integer> byHalf) {
    List<GaugePeriod> periods = new ArrayList<>();
    LocalDate from = byHalf.firstKey();
    int tests = 0;
    for (Map.Entry<LocalDate, Integer> half : byHalf.entrySet()) {
      from = tests == 0 ? half.getKey() : from;
      tests += half.getValue();
      if (tests >= FEWEST_TESTS) {
        periods.add(period(offset, from, half.getKey(), tests));
        tests = 0;
      }
    }
    if (tests > 0 && !periods.isEmpty()) {
      GaugePeriod last = periods.remove(periods.size() - 1);
      periods.add(period(offset, last.from(), byHalf.lastKey(), last.tests() + tests));
    }
    return periods.size() < 2 ? offset : offset.withPeriods(periods);
  }

  private static GaugePeriod period(
      GaugeOffset offset, LocalDate from, LocalDate lastHalf, int tests) {
    return new GaugePeriod(
        from,
        lastHalf.plusMonths(6).minusDays(1),
        offset.offsetLog(),
        offset.standardErrorLog(),
        tests);
  }
}

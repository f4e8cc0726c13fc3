package borecensus.norms;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;

/**
 * How much a gauge reads high against the mean of the fleet's gauges.
 *
 * @param offsetLog on the log reading, over all its tests; the mean over the gauges with tests is
 *     zero
 * @param standardErrorLog of the offset, counting that a gauge which serves one family alone cannot
 *     be told from that family's level
 * @param tests trusted tests taken with it
 * @param resolutionKpa reading step; NaN when the gauge is not registered
 * @param periods the offset by time, oldest first; empty where the tests do not suffice to tell
 *     times apart
 */
public record GaugeOffset(
    String gaugeId,
    double offsetLog,
    double standardErrorLog,
    int tests,
    double resolutionKpa,
    List<GaugePeriod> periods)
    implements Serializable {

  public GaugeOffset {
    periods = PeriodsOfGauge.copyOf(periods);
  }

  /** What the constructor made of the periods. */
  private PeriodsOfGauge byDay() {
    return (PeriodsOfGauge) periods;
  }

  /** A gauge whose offset is the same at all times. */
  public GaugeOffset(
      String gaugeId, double offsetLog, double standardErrorLog, int tests, double resolutionKpa) {
    this(gaugeId, offsetLog, standardErrorLog, tests, resolutionKpa, List.of());
  }

  /** The offset in per cent, reads high: positive. */
  public double offsetPct() {
    return 100 * Math.expm1(offsetLog);
  }

  /** The standard error in per cent. */
  public double standardErrorPct() {
    return 100 * standardErrorLog;
  }

  /** The offset on a day; before the first period that of the first, after the last of the last. */
  public double offsetLogOn(LocalDate day) {
    return offsetLogIn(periodOn(day));
  }

  /** The offset in a period of this number; at all times the same where there are none. */
  double offsetLogIn(int period) {
    return periods.isEmpty() ? offsetLog : byDay().offsetLog(period);
  }

  /** Number of the period that a day belongs to, from 0; 0 where there are none. */
  int periodOn(LocalDate day) {
    return byDay().on(day);
  }

  /** What the period reads above the gauge's own mean. */
  double driftLog(int period) {
    return byDay().offsetLog(period) - offsetLog;
  }

  /** Error variance of {@link #driftLog}; zero without periods. */
  double driftErrorVariance(int period) {
    if (periods.isEmpty()) {
      return 0;
    }
    double error = byDay().standardErrorLog(period);
    return Math.max(0, error * error - standardErrorLog * standardErrorLog);
  }

  /** The same drift about another mean. */
  GaugeOffset moved(double newOffsetLog, double newErrorLog, int newTests) {
    List<GaugePeriod> moved =
        periods.stream()
            .map(
                p -> {
                  int number = periods.indexOf(p);
                  return p.with(
                      newOffsetLog + driftLog(number),
                      newErrorLog * newErrorLog + driftErrorVariance(number));
                })
            .toList();
    return new GaugeOffset(gaugeId, newOffsetLog, newErrorLog, newTests, resolutionKpa, moved);
  }

  GaugeOffset withPeriods(List<GaugePeriod> newPeriods) {
    return new GaugeOffset(gaugeId, offsetLog, standardErrorLog, tests, resolutionKpa, newPeriods);
  }
}

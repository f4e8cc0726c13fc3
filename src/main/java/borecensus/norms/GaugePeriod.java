package borecensus.norms;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * How much a gauge read high during some time: its mean offset where it keeps steady, and what its
 * tests show where it drifts or jumps.
 *
 * @param from first day, the first of a calendar half-year
 * @param to last day, the last of a calendar half-year
 * @param offsetLog on the log reading, against the mean of the fleet's gauges
 * @param standardErrorLog of the offset
 * @param tests trusted tests taken with it during this time
 */
public record GaugePeriod(
    LocalDate from, LocalDate to, double offsetLog, double standardErrorLog, int tests)
    implements Serializable {

  /** The offset in per cent, reads high: positive. */
  public double offsetPct() {
    return 100 * Math.expm1(offsetLog);
  }

  /** The standard error in per cent. */
  public double standardErrorPct() {
    return 100 * standardErrorLog;
  }

  GaugePeriod with(double newOffsetLog, double newErrorVariance) {
    return new GaugePeriod(from, to, newOffsetLog, Math.sqrt(newErrorVariance), tests);
  }
}

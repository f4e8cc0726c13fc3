package borecensus.norms;

import java.io.Serializable;

/**
 * How much a gauge reads high against the mean of the fleet's gauges.
 *
 * @param offsetLog on the log reading; the mean over the gauges with tests is zero
 * @param standardErrorLog of the offset, counting that a gauge which serves one family alone cannot
 *     be told from that family's level
 * @param tests trusted tests taken with it
 * @param resolutionKpa reading step; NaN when the gauge is not registered
 */
public record GaugeOffset(
    String gaugeId, double offsetLog, double standardErrorLog, int tests, double resolutionKpa)
    implements Serializable {

  /** The offset in per cent, reads high: positive. */
  public double offsetPct() {
    return 100 * Math.expm1(offsetLog);
  }

  /** The standard error in per cent. */
  public double standardErrorPct() {
    return 100 * standardErrorLog;
  }
}

package borecensus.norms;

import java.io.Serializable;

/**
 * How large a fault is, before looking: the logarithm of the shift is normal.
 *
 * @param medianPct median loss or gain, per cent, above 0 and below 100
 * @param logSd standard deviation of the natural logarithm of the shift
 */
public record FaultSize(double medianPct, double logSd) implements Serializable {

  public FaultSize {
    if (!(medianPct > 0 && medianPct < 100 && logSd > 0)) {
      throw new IllegalArgumentException("a fault size needs 0 < median < 100 and log_sd > 0");
    }
  }

  /** Median shift of the log reading, positive for a loss. */
  public double medianLogLoss() {
    return -Math.log1p(-medianPct / 100);
  }

  /** Median shift of the log reading, positive for a gain. */
  public double medianLogGain() {
    return Math.log1p(medianPct / 100);
  }
}

package borecensus.causes;

import borecensus.domain.Cause;
import borecensus.domain.Reason;

/**
 * How often each cause lies behind a pattern, before anything but the pattern is known: given that
 * an inspection finds a cause at all. The order of causes follows the trade (one cylinder: valve,
 * then rings; neighbours: gasket; a bank: timing; all: measurement first, wear last; high: carbon);
 * the figures are common practice, no source, and the fleet's own findings replace them as they
 * come in ({@link CauseTable}).
 */
public enum CausePrior {
  LOW_CYLINDER(Reason.LOW_CYLINDER, 0.40, 0.25, 0.06, 0.02, 0.07, 0.15, 0.05),
  LOW_ADJACENT_PAIR(Reason.LOW_ADJACENT_PAIR, 0.08, 0.12, 0.62, 0.02, 0.03, 0.09, 0.04),
  LOW_BANK(Reason.LOW_BANK, 0.05, 0.05, 0.10, 0.50, 0.02, 0.13, 0.15),
  LOW_OVERALL(Reason.LOW_OVERALL, 0.06, 0.28, 0.02, 0.22, 0.02, 0.35, 0.05),
  HIGH_CYLINDER(Reason.HIGH_CYLINDER, 0.01, 0.07, 0.01, 0.02, 0.64, 0.20, 0.05),
  FALLING_CYLINDER(Reason.FALLING_CYLINDER, 0.43, 0.32, 0.06, 0.01, 0.07, 0.06, 0.05),
  FALLING_LEVEL(Reason.FALLING_LEVEL, 0.08, 0.55, 0.02, 0.12, 0.02, 0.16, 0.05),
  BELOW_MAKER_LIMIT(Reason.BELOW_MAKER_LIMIT, 0.30, 0.30, 0.08, 0.07, 0.05, 0.15, 0.05),
  DOUBTFUL_MEASUREMENT(Reason.DOUBTFUL_MEASUREMENT, 0.02, 0.05, 0.01, 0.03, 0.01, 0.85, 0.03);

  /** Who says so. */
  public static final String SOURCE = "common practice, no source";

  private final Reason pattern;
  private final double[] shares;

  /** Shares in the order of {@link Cause}; they sum to one. */
  CausePrior(Reason pattern, double... shares) {
    this.pattern = pattern;
    this.shares = shares;
  }

  /** The pattern that was seen. */
  public Reason pattern() {
    return pattern;
  }

  /** The share of this cause among marks of the pattern whose cause was found. */
  public double share(Cause cause) {
    return shares[cause.ordinal()];
  }
}

package borecensus.statistics;

import org.apache.commons.math3.special.Erf;

/**
 * The upper tail of the standard normal distribution, quickly.
 *
 * <p>The logarithm of the tail is tabulated at steps of 1/128 from Commons Math's erfc and
 * interpolated by cubic Hermite polynomials, whose slope is the (negative) hazard phi / tail. The
 * interpolation error is at most h^4 / 384 times the fourth derivative, below 1e-10 of the tail
 * itself.
 */
final class NormalTail {
  /** Where the table begins; left of it the tail is 1. */
  private static final double FROM = -12.0;

  /** Where the table ends; right of it the tail is 0, being below 1e-270. */
  private static final double TO = 35.0;

  /** Below every logarithm in the table; minus infinity stands for what lies beyond it. */
  private static final double LOWEST_LOG = -700.0;

  private static final int STEPS_PER_UNIT = 128;
  private static final double ROOT_OF_TWO_PI = Math.sqrt(2.0 * Math.PI);
  private static final int MAX_NEWTON_STEPS = 50;
  private static final double NEWTON_ACCURACY = 1e-10;
  private static final int STEPS = (int) (TO - FROM) * STEPS_PER_UNIT;

  /** Log of the tail at each step and, beside it so that both are met at once, its slope. */
  private static final double[] TABLE = new double[2 * (STEPS + 1)];

  static {
    for (int i = 0; i <= STEPS; i++) {
      double z = FROM + (double) i / STEPS_PER_UNIT;
      double smaller = 0.5 * Erf.erfc(Math.abs(z) / Math.sqrt(2.0));
      double tail = z < 0.0 ? 1.0 - smaller : smaller;
      TABLE[2 * i] = z < 0.0 ? Math.log1p(-smaller) : Math.log(smaller);
      TABLE[2 * i + 1] = -density(z) / tail;
    }
  }

  private NormalTail() {}

  /** The probability that a standard normal variable exceeds z. */
  static double probability(double z) {
    double log = logProbability(z);
    return log < LOWEST_LOG ? 0.0 : QuickExp.of(log);
  }

  /** The natural logarithm of {@link #probability}. */
  static double logProbability(double z) {
    if (z < FROM) {
      return 0.0;
    }
    double position = (z - FROM) * STEPS_PER_UNIT;
    if (!(position < STEPS)) {
      return Double.isNaN(z) ? Double.NaN : Double.NEGATIVE_INFINITY;
    }
    int i = (int) position;
    double t = position - i;
    double s = 1.0 - t;
    double step = 1.0 / STEPS_PER_UNIT;
    int at = 2 * i;
    return s * s * ((1.0 + 2.0 * t) * TABLE[at] + t * step * TABLE[at + 1])
        + t * t * ((1.0 + 2.0 * s) * TABLE[at + 2] - s * step * TABLE[at + 3]);
  }

  /**
   * The z that a standard normal variable exceeds with a given probability of at most one half.
   *
   * <p>Newton's method on the logarithm of the tail, which is concave, so that it closes in from
   * the right-hand starting point without overshooting.
   */
  static double inverse(double probability) {
    double target = Math.log(probability);
    double z = Math.sqrt(-2.0 * target);
    for (int i = 0; i < MAX_NEWTON_STEPS; i++) {
      double logTail = logProbability(z);
      double step = (logTail - target) * ROOT_OF_TWO_PI * Math.exp(logTail + 0.5 * z * z);
      z += step;
      if (Math.abs(step) < NEWTON_ACCURACY) {
        break;
      }
    }
    return z;
  }

  /** The density of the standard normal distribution. */
  static double density(double z) {
    return Math.exp(-0.5 * z * z) / ROOT_OF_TWO_PI;
  }
}

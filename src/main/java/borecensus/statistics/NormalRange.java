package borecensus.statistics;

import borecensus.domain.Limits;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

/**
 * The range W = highest - lowest of n independent standard normal readings.
 *
 * <p>Source: Tippett (1925), Biometrika 17; Hartley (1942), Biometrika 32. With phi and Q the
 * normal density and upper tail, conditioning on the lowest value x gives
 *
 * <pre>
 *   P(W &gt; w) = n integral of phi(x) { Q(x)^(n-1) - [Q(x) - Q(x + w)]^(n-1) } dx
 * </pre>
 *
 * which is integrated by the trapezoidal rule on a fixed grid; for such smooth, fast-decaying
 * functions its error falls exponentially, and at step 0.2 it is far below that of Q. Absolute
 * accuracy is better than 1e-8. The upper tail is summed as it stands above and keeps 7 digits up
 * to w = 16, beyond which it is below 1e-26; the lower tail is summed from the second bracket alone
 * and keeps 3 digits down to w = 0.01.
 *
 * <p>n runs from 2 to {@value Limits#MAX_CYLINDERS}; other n are refused with an {@link
 * IllegalArgumentException}. NaN gives NaN. All values are in units of the readings' standard
 * deviation. Thread-safe: the grids are built once and never changed.
 */
public final class NormalRange {
  /** The fewest readings that have a range. */
  public static final int MIN_READINGS = 2;

  /** The most readings that are provided for. */
  public static final int MAX_READINGS = Limits.MAX_CYLINDERS;

  private static final double NARROWEST = 0.01;
  private static final double WIDEST = 16.0;
  private static final double SOLVER_ACCURACY = 1e-12;
  private static final int SOLVER_EVALUATIONS = 200;
  private static final RangeGrid[] GRIDS = grids();

  private NormalRange() {}

  /**
   * The probability that the range is at most w.
   *
   * @param w the range in standard deviations
   * @param n the number of readings
   * @return a probability; 0 for w of 0 or less
   * @throws IllegalArgumentException if n is out of range
   */
  public static double cdf(double w, int n) {
    RangeGrid grid = grid(n);
    return w <= 0.0 ? 0.0 : grid.cdf(w);
  }

  /**
   * The probability that the range exceeds w; accurate where {@code 1 - cdf} has no digits left.
   *
   * @param w the range in standard deviations
   * @param n the number of readings
   * @return a probability; 1 for w of 0 or less
   * @throws IllegalArgumentException if n is out of range
   */
  public static double survival(double w, int n) {
    RangeGrid grid = grid(n);
    return w <= 0.0 ? 1.0 : grid.survival(w);
  }

  /**
   * The range that is exceeded with probability 1 - p.
   *
   * @param p the probability of a smaller range, from 0 to 1
   * @param n the number of readings
   * @return the range in standard deviations; 0 for p = 0 and infinite for p = 1
   * @throws IllegalArgumentException if n is out of range or p is not from 0 to 1
   */
  public static double quantile(double p, int n) {
    grid(n);
    if (Double.isNaN(p)) {
      return Double.NaN;
    }
    if (p < 0.0 || p > 1.0) {
      throw new IllegalArgumentException("a quantile needs p from 0 to 1, but p is " + p);
    }
    if (p == 0.0) {
      return 0.0;
    }
    if (p == 1.0) {
      return Double.POSITIVE_INFINITY;
    }
    // The tail that is small is the one that has digits.
    UnivariateFunction excess = p < 0.5 ? w -> p - cdf(w, n) : w -> survival(w, n) - (1.0 - p);
    return new BrentSolver(SOLVER_ACCURACY).solve(SOLVER_EVALUATIONS, excess, 0.0, WIDEST);
  }

  /**
   * The standard normal deviate that is as unusual as a range: positive when it is wider than the
   * median range. This puts spreads of engines with different numbers of cylinders on one scale.
   *
   * @param w the range in standard deviations; below {@value #NARROWEST} it counts as that, above
   *     {@value #WIDEST} as that, so that a score is always finite
   * @param n the number of readings
   * @return the score z with P(Z &gt; z) = P(W &gt; w)
   * @throws IllegalArgumentException if n is out of range
   */
  public static double normalScore(double w, int n) {
    RangeGrid grid = grid(n);
    RangeGrid.Beyond beyond = grid.sharesBeyond(Math.min(Math.max(w, NARROWEST), WIDEST));
    double tail = grid.survival(beyond);
    if (Double.isNaN(tail)) {
      return Double.NaN;
    }
    return tail <= 0.5 ? NormalTail.inverse(tail) : -NormalTail.inverse(grid.cdf(beyond));
  }

  /**
   * The mean range, the d2 of control charts.
   *
   * @param n the number of readings
   * @return the mean in standard deviations
   * @throws IllegalArgumentException if n is out of range
   */
  public static double mean(int n) {
    return grid(n).mean();
  }

  /**
   * The standard deviation of the range, the d3 of control charts.
   *
   * @param n the number of readings
   * @return the standard deviation of the range, in standard deviations of a reading
   * @throws IllegalArgumentException if n is out of range
   */
  public static double standardDeviation(int n) {
    return grid(n).standardDeviation();
  }

  private static RangeGrid grid(int n) {
    if (n < MIN_READINGS || n > MAX_READINGS) {
      throw new IllegalArgumentException(
          "the range is known for "
              + MIN_READINGS
              + " to "
              + MAX_READINGS
              + " readings, but n is "
              + n);
    }
    return GRIDS[n - MIN_READINGS];
  }

  private static RangeGrid[] grids() {
    RangeGrid[] grids = new RangeGrid[MAX_READINGS - MIN_READINGS + 1];
    for (int n = MIN_READINGS; n <= MAX_READINGS; n++) {
      grids[n - MIN_READINGS] = RangeGrid.of(n);
    }
    return grids;
  }
}

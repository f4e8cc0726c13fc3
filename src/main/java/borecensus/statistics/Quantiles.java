package borecensus.statistics;

import java.util.Arrays;

/**
 * Sample quantiles of type 7.
 *
 * <p>Source: Hyndman and Fan (1996), <i>Sample quantiles in statistical packages</i>, The American
 * Statistician 50(4), definition 7, which is also the default of R and NumPy: with the values
 * sorted as x_1 .. x_n and h = 1 + (n - 1) p,
 *
 * <pre>
 *   Q(p) = x_floor(h) + (h - floor(h)) (x_(floor(h)+1) - x_floor(h))
 * </pre>
 *
 * <p>Empty input or any NaN gives NaN; a single value is its own quantile for every p; ties need no
 * care; the order of the input does not matter and the input is not changed.
 */
public final class Quantiles {
  private Quantiles() {}

  /**
   * The middle value, or the mean of the two middle ones.
   *
   * @param x the values, in any order and unit
   * @return the median in the unit of x; NaN if x is empty or holds NaN
   */
  public static double median(double[] x) {
    return quantile(x, 0.5);
  }

  /**
   * The quantile of type 7.
   *
   * @param x the values, in any order and unit
   * @param p the share of values that lie below, from 0 to 1
   * @return the quantile in the unit of x; NaN if x is empty or holds NaN
   * @throws IllegalArgumentException if p is not from 0 to 1
   */
  public static double quantile(double[] x, double p) {
    double[] sorted = x.clone();
    Arrays.sort(sorted);
    return quantileOfSorted(sorted, p);
  }

  /**
   * The quantile of type 7 of values that are sorted already; for several quantiles of one sample.
   *
   * @param sorted the values in ascending order, NaN last (as {@link Arrays#sort(double[])} leaves
   *     them); the order is not checked
   * @param p the share of values that lie below, from 0 to 1
   * @return the quantile in the unit of the values; NaN if there are none or one is NaN
   * @throws IllegalArgumentException if p is not from 0 to 1
   */
  public static double quantileOfSorted(double[] sorted, double p) {
    if (!(p >= 0.0 && p <= 1.0)) {
      throw new IllegalArgumentException("a quantile needs p from 0 to 1, but p is " + p);
    }
    int n = sorted.length;
    if (n == 0 || Double.isNaN(sorted[n - 1])) {
      return Double.NaN;
    }
    return atRank(sorted, 1.0 + (n - 1) * p);
  }

  /**
   * Interpolates linearly between order statistics; ranks count from 1, and ranks beyond the sample
   * are brought to its ends.
   */
  static double atRank(double[] sorted, double rank) {
    double clamped = Math.min(Math.max(rank, 1.0), sorted.length);
    int below = (int) Math.floor(clamped) - 1;
    int above = Math.min(below + 1, sorted.length - 1);
    double low = sorted[below];
    double high = sorted[above];
    double fraction = clamped - Math.floor(clamped);
    // Equal neighbours are returned as they are: inf - inf would otherwise turn into NaN.
    if (fraction == 0.0 || low == high) {
      return low;
    }
    return low + fraction * (high - low);
  }
}

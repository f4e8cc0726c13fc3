package borecensus.statistics;

import java.util.Arrays;

/**
 * The straight line of Theil and Sen, which up to 29 % of bad points cannot spoil.
 *
 * <p>Source: Theil (1950); Sen (1968), <i>Estimates of the regression coefficient based on
 * Kendall's tau</i>, JASA 63; interval as in Gilbert (1987), section 16.5.2. The slope is the
 * median of (y_j - y_i) / (x_j - x_i) over the N pairs with different x. Its interval runs between
 * the ranks
 *
 * <pre>
 *   (N - z sd(S)) / 2   and   (N + z sd(S)) / 2 + 1
 * </pre>
 *
 * of the sorted slopes, interpolated linearly, where sd(S) is that of {@link MannKendall}. Ranks
 * beyond the sample are brought to its ends, which happens at z = 1.96 with fewer than five points.
 *
 * <p>The order of the points does not matter. Time and memory grow with the square of the number of
 * points, of which at most {@value #MAX_POINTS} are accepted.
 */
public final class TheilSen {
  /** The most points that are accepted: about 8 million slopes, 64 MB. */
  public static final int MAX_POINTS = 4096;

  /** The fewest points for which a standard error is given. */
  public static final int MIN_POINTS_FOR_ERROR = 4;

  /**
   * Standard errors come from the interval at this many standard errors either side: the choice
   * that overstates least on few points (with normal noise, evenly spaced: 98 % too large on
   * average for 4 points, 46 % for 5, 18 % for 8, 5 % for 20; from the 95 % interval it would be
   * 49, 141, 39 and 9 %).
   */
  static final double STANDARD_ERROR_Z = 1.0;

  private TheilSen() {}

  /**
   * Fits the line.
   *
   * @param x the times or distances, in any order and unit
   * @param y the values that belong to them
   * @return the fit
   * @throws IllegalArgumentException if the lengths differ, a number is not finite, or there are
   *     more than {@value #MAX_POINTS} points
   */
  public static TheilSenFit fit(double[] x, double[] y) {
    double[] slopes = sortedSlopes(x, y);
    double slope = Quantiles.quantileOfSorted(slopes, 0.5);
    SlopeInterval interval = interval(slopes, y, STANDARD_ERROR_Z);
    double standardError =
        x.length < MIN_POINTS_FOR_ERROR
            ? Double.NaN
            : (interval.high() - interval.low()) / (2.0 * STANDARD_ERROR_Z);
    return new TheilSenFit(slope, medianResidual(x, y, slope), standardError, x.length);
  }

  /**
   * The slope alone.
   *
   * @param x the times or distances, in any order and unit
   * @param y the values that belong to them
   * @return that of {@link #fit}; NaN without two points of different x
   * @throws IllegalArgumentException as {@link #fit}
   */
  public static double slope(double[] x, double[] y) {
    return Quantiles.quantileOfSorted(sortedSlopes(x, y), 0.5);
  }

  /**
   * The interval of the slope.
   *
   * @param x the times or distances, in any order and unit
   * @param y the values that belong to them
   * @param z how many standard deviations of S it spans either side: 1.96 for 95 %
   * @return its ends; NaN without two points of different x
   * @throws IllegalArgumentException as {@link #fit}, or if z is negative or NaN
   */
  public static SlopeInterval slopeInterval(double[] x, double[] y, double z) {
    if (!(z >= 0.0)) {
      throw new IllegalArgumentException("z must be at least 0, but is " + z);
    }
    return interval(sortedSlopes(x, y), y, z);
  }

  /**
   * The ends of an interval for the slope.
   *
   * @param low the lower end, in units of y per unit of x
   * @param high the upper end, in units of y per unit of x
   */
  public record SlopeInterval(double low, double high) {}

  private static SlopeInterval interval(double[] slopes, double[] y, double z) {
    if (slopes.length == 0) {
      return new SlopeInterval(Double.NaN, Double.NaN);
    }
    double halfRanks = z * Math.sqrt(MannKendall.varianceOfS(y));
    return new SlopeInterval(
        Quantiles.atRank(slopes, (slopes.length - halfRanks) / 2.0),
        Quantiles.atRank(slopes, (slopes.length + halfRanks) / 2.0 + 1.0));
  }

  private static double[] sortedSlopes(double[] x, double[] y) {
    Points.requireUsable(x, y);
    if (x.length > MAX_POINTS) {
      throw new IllegalArgumentException(
          "at most " + MAX_POINTS + " points are accepted, but there are " + x.length);
    }
    double[] slopes = new double[x.length * Math.max(x.length - 1, 0) / 2];
    int used = 0;
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        if (x[i] != x[j]) {
          slopes[used++] = (y[j] - y[i]) / (x[j] - x[i]);
        }
      }
    }
    double[] sorted = Arrays.copyOf(slopes, used);
    Arrays.sort(sorted);
    return sorted;
  }

  private static double medianResidual(double[] x, double[] y, double slope) {
    double[] residuals = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      residuals[i] = y[i] - slope * x[i];
    }
    return Quantiles.median(residuals);
  }
}

package borecensus.statistics;

import java.util.Arrays;

/**
 * The Mann-Kendall test for a monotone trend.
 *
 * <p>Source: Mann (1945), Econometrica 13; Kendall (1975), <i>Rank Correlation Methods</i>; the tie
 * correction and continuity correction as in Gilbert (1987), <i>Statistical Methods for
 * Environmental Pollution Monitoring</i>, eq. 16.2 to 16.4:
 *
 * <pre>
 *   S      = sum over i &lt; j of sign(x_j - x_i) sign(y_j - y_i)
 *   Var(S) = [ n (n-1) (2n+5) - sum over groups of t tied y of t (t-1) (2t+5) ] / 18
 *   z      = (S - 1) / sd for S &gt; 0, 0 for S = 0, (S + 1) / sd for S &lt; 0
 * </pre>
 *
 * Points of equal x add nothing to S; the variance is corrected for ties in y only, which
 * overstates it slightly when x has ties too, so the test errs towards caution.
 *
 * @param s the sum of signs
 * @param variance its variance when there is no trend, corrected for ties in y
 * @param z the normal score; 0 if all y are tied; NaN with fewer than two points
 * @param points how many points were used
 */
public record MannKendall(long s, double variance, double z, int points) {

  /**
   * Tests y for a trend over x.
   *
   * @param x the times or distances, in any order and unit
   * @param y the values that belong to them
   * @return the test
   * @throws IllegalArgumentException if the lengths differ or a number is not finite
   */
  public static MannKendall test(double[] x, double[] y) {
    Points.requireUsable(x, y);
    long s = 0L;
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        s += (long) (Math.signum(x[j] - x[i]) * Math.signum(y[j] - y[i]));
      }
    }
    double variance = varianceOfS(y);
    return new MannKendall(s, variance, zOf(s, variance, y.length), y.length);
  }

  /** The variance of S without trend, corrected for ties in y. */
  static double varianceOfS(double[] y) {
    double[] sorted = y.clone();
    Arrays.sort(sorted);
    double total = tieTerm(sorted.length);
    int start = 0;
    for (int end = 1; end <= sorted.length; end++) {
      if (end == sorted.length || sorted[end] != sorted[start]) {
        total -= tieTerm(end - start);
        start = end;
      }
    }
    return total / 18.0;
  }

  private static double tieTerm(double t) {
    return t * (t - 1.0) * (2.0 * t + 5.0);
  }

  private static double zOf(long s, double variance, int points) {
    if (points < 2) {
      return Double.NaN;
    }
    if (s == 0L) {
      return 0.0;
    }
    return (s - Long.signum(s)) / Math.sqrt(variance);
  }
}

package borecensus.statistics;

/**
 * Confidence limits of a share.
 *
 * <p>Source: Wilson (1927), J. Am. Stat. Assoc. 22:209-212: the shares p at which the observed one
 * is z of p's own standard errors away,
 *
 * <pre>
 *   (k + z^2/2 -+ z sqrt(k (n - k) / n + z^2/4)) / (n + z^2)
 * </pre>
 *
 * @param lower NaN without cases
 * @param upper NaN without cases
 */
public record WilsonInterval(double lower, double upper) {

  /** For 95 of 100 cases. */
  public static final double Z_95 = 1.959963984540054;

  /**
   * The limits of k of n.
   *
   * @throws IllegalArgumentException when k is not from 0 to n
   */
  public static WilsonInterval of(long k, long n, double z) {
    if (k < 0 || k > n) {
      throw new IllegalArgumentException(k + " of " + n + " is impossible");
    }
    if (n == 0) {
      return new WilsonInterval(Double.NaN, Double.NaN);
    }
    double square = z * z;
    double middle = k + square / 2;
    double reach = z * Math.sqrt((double) k * (n - k) / n + square / 4);
    double all = n + square;
    return new WilsonInterval(
        k == 0 ? 0 : (middle - reach) / all, k == n ? 1 : (middle + reach) / all);
  }
}

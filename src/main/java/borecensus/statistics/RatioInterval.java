package borecensus.statistics;

/**
 * Confidence limits of a ratio of two normal estimates, as far as it is not negative.
 *
 * <p>Source: Fieller (1954), J. R. Stat. Soc. B 16:175-185: the limits are the ratios r at which
 * the numerator less r times the denominator is z of its own standard errors away from zero,
 *
 * <pre>
 *   (a - r b)^2 = z^2 (v_a - 2 r c + r^2 v_b)
 * </pre>
 *
 * A denominator that is not z standard errors from zero leaves the ratio without an upper limit.
 *
 * @param lower smallest ratio that is not ruled out; NaN when only negative ones are left
 * @param upper largest such ratio; infinite when there is none, NaN when lower is
 */
public record RatioInterval(double lower, double upper) {
  private static final RatioInterval NONE = new RatioInterval(Double.NaN, Double.NaN);

  /**
   * The limits.
   *
   * @param covariance of the two estimates' errors
   * @param z how many standard errors away is too far: 1.645 for nine cases in ten
   * @return NaN limits for NaN input
   */
  public static RatioInterval of(
      Estimate numerator, Estimate denominator, double covariance, double z) {
    double square = denominator.value() * denominator.value() - z * z * denominator.variance();
    double half = numerator.value() * denominator.value() - z * z * covariance;
    double constant = numerator.value() * numerator.value() - z * z * numerator.variance();
    if (Double.isNaN(square + half + constant)) {
      return NONE;
    }
    return constant <= 0 ? fromZero(square, half, constant) : above(square, half, constant);
  }

  /** Zero itself is not ruled out. */
  private static RatioInterval fromZero(double square, double half, double constant) {
    return new RatioInterval(
        0, square > 0 ? (half + root(square, half, constant)) / square : Double.POSITIVE_INFINITY);
  }

  private static RatioInterval above(double square, double half, double constant) {
    double root = root(square, half, constant);
    if (square > 0) {
      return half > 0 ? new RatioInterval(constant / (half + root), (half + root) / square) : NONE;
    }
    // One root is negative, the other positive: all ratios from there on are possible.
    return new RatioInterval(constant / (half + root), Double.POSITIVE_INFINITY);
  }

  private static double root(double square, double half, double constant) {
    return Math.sqrt(Math.max(0, half * half - square * constant));
  }
}

package borecensus.statistics;

/**
 * The modified z-score of a value within its sample.
 *
 * <p>Source: Iglewicz and Hoaglin (1993), <i>How to Detect and Handle Outliers</i>, ASQC vol. 16
 * (NIST e-Handbook 1.3.5.17):
 *
 * <pre>
 *   M_i = 0.6745 (x_i - median) / MAD
 * </pre>
 *
 * with the unscaled MAD and the constant exactly as printed; the authors call |M| above 3.5 a
 * possible outlier.
 *
 * <p>When MAD is 0 (half of the sample or more is tied) the score is not defined and every score is
 * NaN; so it is for a sample with any NaN. Empty input gives empty output.
 */
public final class ModifiedZ {
  /** The threshold that Iglewicz and Hoaglin recommend for |M|. */
  public static final double RECOMMENDED_THRESHOLD = 3.5;

  private static final double CONSTANT = 0.6745;

  private ModifiedZ() {}

  /**
   * The scores of all values of a sample.
   *
   * @param x the values
   * @return one dimensionless score per value, in the same order
   */
  public static double[] scores(double[] x) {
    double median = Quantiles.median(x);
    double mad = Deviations.medianAbsolute(x, median);
    double[] scores = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      scores[i] = score(x[i], median, mad);
    }
    return scores;
  }

  /**
   * The score of one value against a median and MAD found elsewhere.
   *
   * @param x the value
   * @param median the sample's median, in the unit of x
   * @param rawMad the sample's unscaled median absolute deviation, in the unit of x
   * @return the dimensionless score; NaN if rawMad is 0 or any argument is NaN
   */
  public static double score(double x, double median, double rawMad) {
    return rawMad > 0.0 ? CONSTANT * (x - median) / rawMad : Double.NaN;
  }
}

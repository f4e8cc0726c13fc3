package borecensus.screening;

import borecensus.norms.FamilyNorm;
import borecensus.norms.HealthyModel;
import borecensus.statistics.TheilSen;

/**
 * How an engine's level changes with usage.
 *
 * @param pct slope of the test levels (the engine's own, family wear included), gauge offsets
 *     removed: per cent per 100,000 km, or per 1,000 engine hours in a family judged by hours
 * @param z slope less the family's expected slope over the same usages, in standard errors that
 *     count test and reading noise, slopes of healthy engines and gauge errors
 */
public record Trend(double pct, double z) {

  /** Too few tests. */
  static final Trend UNKNOWN = new Trend(Double.NaN, Double.NaN);

  private static final int FEWEST_TESTS = 3;

  /**
   * Median of the slopes between tests (Theil, 1950; Sen, 1968). Its standard error is taken as
   * that of the least squares slope, over the root of its asymptotic efficiency 3/pi (Sen, 1968, J.
   * Am. Stat. Assoc. 63:1379-1389). Unknown with fewer than three tests, or all at one usage.
   */
  static Trend of(HealthyModel model, FamilyNorm norm) {
    double[] x = model.usage();
    boolean known = !Double.isNaN(norm.curve().at(x[0]));
    if (!known || x.length < FEWEST_TESTS || sameUsage(x)) {
      return UNKNOWN;
    }
    double[] expected = new double[x.length];
    double[] levels = new double[x.length];
    for (int t = 0; t < x.length; t++) {
      expected[t] = norm.curve().at(x[t]);
      levels[t] = expected[t] + model.level(t);
    }
    double slope = TheilSen.slope(x, levels);
    double[] contrast = slopeContrast(x);
    double excess = slope - dot(contrast, expected);
    double error = Math.sqrt(variance(contrast, model) * Math.PI / 3);
    return new Trend(100 * norm.axis().trendOf(slope), excess / error);
  }

  private static boolean sameUsage(double[] x) {
    for (double usage : x) {
      if (usage != x[0]) {
        return false;
      }
    }
    return true;
  }

  /** The weights that make a least squares slope of values. */
  private static double[] slopeContrast(double[] x) {
    double mean = 0;
    for (double usage : x) {
      mean += usage / x.length;
    }
    double[] contrast = new double[x.length];
    double squares = 0;
    for (int t = 0; t < x.length; t++) {
      contrast[t] = x[t] - mean;
      squares += contrast[t] * contrast[t];
    }
    for (int t = 0; t < x.length; t++) {
      contrast[t] /= squares;
    }
    return contrast;
  }

  private static double variance(double[] contrast, HealthyModel model) {
    double variance = 0;
    for (int t = 0; t < contrast.length; t++) {
      variance += contrast[t] * dot(contrast, model.levelCovariance()[t]);
      variance += contrast[t] * contrast[t] * model.readingVariance()[t] / model.cylindersRead(t);
    }
    return variance;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

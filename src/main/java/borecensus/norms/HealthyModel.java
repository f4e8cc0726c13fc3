package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;

/**
 * One engine's residuals against the norm, and their covariance if the engine is healthy.
 *
 * @param readings what was read
 * @param usage by test, model units; filled in where not known
 * @param residual log reading less family mean, position, gauge offset and the effect of the test's
 *     conditions, limited to a believed deviation, by test and cylinder; NaN where not read
 * @param levelCovariance between tests, of what all cylinders of a test share
 * @param cylinderVariance of what all tests of a cylinder share
 * @param readingVariance by test, of one reading, rounding included
 */
public record HealthyModel(
    EngineReadings readings,
    double[] usage,
    double[][] residual,
    double[][] levelCovariance,
    double cylinderVariance,
    double[] readingVariance) {

  /** The engine's last trusted tests, of which there must be at least one. */
  public static HealthyModel of(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return of(EngineResiduals.of(history, norm, norms), norm);
  }

  /** One test alone, trusted or not. */
  public static HealthyModel of(
      EngineHistory history, CompressionTest test, FamilyNorm norm, FleetNorms norms) {
    return of(EngineResiduals.of(history, test, norm, norms), norm);
  }

  static HealthyModel of(EngineReadings readings, FamilyNorm norm, FleetNorms norms) {
    return of(EngineResiduals.of(readings, norm, norms), norm);
  }

  /** An engine whose residuals are known. */
  public static HealthyModel of(EngineResiduals engine, FamilyNorm norm) {
    return new HealthyModel(
        engine.readings(),
        engine.usage(),
        engine.residual(),
        levelCovariance(engine, norm),
        engine.cylinderVariance(),
        engine.readingVariance());
  }

  /** How many tests. */
  public int tests() {
    return usage.length;
  }

  /** Mean residual of a test over the cylinders read. */
  public double level(int test) {
    return EngineResiduals.mean(residual[test]);
  }

  /** How many cylinders of a test were read. */
  public int cylindersRead(int test) {
    return EngineResiduals.read(residual[test]);
  }

  /** Variance of {@link #level}. */
  public double levelVariance(int test) {
    return levelCovariance[test][test]
        + (cylinderVariance + readingVariance[test]) / cylindersRead(test);
  }

  /** Variance of the residual of one reading. */
  public double readingTotalVariance(int test) {
    return levelCovariance[test][test] + cylinderVariance + readingVariance[test];
  }

  /**
   * {@link #readingTotalVariance} of a test if it were the engine's only one. Its usage is taken as
   * it stands among the others, which is the same where the distance is the engine's own.
   */
  public static double varianceAlone(EngineResiduals engine, int test, FamilyNorm norm) {
    VarianceComponents v = norm.components();
    double x = engine.usage()[test];
    GaugeError error = engine.gaugeError(norm, test);
    double common = v.engine() + usageVariance(engine.readings(), test, norm);
    double level =
        common + v.slope() * x * x + norm.curve().covariance(x, x) + error.sharedWith(error);
    return level + v.test() + engine.cylinderVariance() + engine.readingVariance()[test];
  }

  private static double usageVariance(EngineReadings readings, int test, FamilyNorm norm) {
    boolean known = readings.ownDistance() && !Double.isNaN(readings.usage()[test]);
    return known ? 0 : norm.range().usageLevelVariance();
  }

  private static double[][] levelCovariance(EngineResiduals engine, FamilyNorm norm) {
    VarianceComponents v = norm.components();
    double[] x = engine.usage();
    double common = v.engine() + usageVariance(engine.readings(), norm);
    GaugeError[] errors = new GaugeError[x.length];
    double[][] covariance = norm.curve().covariances(x);
    for (int i = 0; i < x.length; i++) {
      errors[i] = engine.gaugeError(norm, i);
      for (int j = 0; j <= i; j++) {
        double sameGauge = errors[i].sharedWith(errors[j]);
        covariance[i][j] = common + v.slope() * x[i] * x[j] + covariance[i][j] + sameGauge;
        covariance[j][i] = covariance[i][j];
      }
      covariance[i][i] += v.test();
    }
    return covariance;
  }

  private static double usageVariance(EngineReadings readings, FamilyNorm norm) {
    boolean known = readings.ownDistance();
    for (double u : readings.usage()) {
      known &= !Double.isNaN(u);
    }
    return known ? 0 : norm.range().usageLevelVariance();
  }
}

package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.util.Arrays;
import java.util.List;

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
    return of(
        EngineReadings.of(history, norm.axis(), g -> norms.gauge(g).resolutionKpa()), norm, norms);
  }

  /** One test alone, trusted or not. */
  public static HealthyModel of(
      EngineHistory history, CompressionTest test, FamilyNorm norm, FleetNorms norms) {
    return of(
        EngineReadings.of(history, List.of(test), norm.axis(), g -> norms.gauge(g).resolutionKpa()),
        norm,
        norms);
  }

  static HealthyModel of(EngineReadings readings, FamilyNorm norm, FleetNorms norms) {
    double[] usage = usage(readings, norm);
    VarianceComponents v = norm.components();
    return new HealthyModel(
        readings,
        usage,
        residuals(readings, usage, norm, norms),
        levelCovariance(readings, usage, norm, norms),
        v.cylinder() + norm.positionVariance(),
        Arrays.stream(readings.roundingVariance()).map(r -> r + v.reading()).toArray());
  }

  /** How many tests. */
  public int tests() {
    return usage.length;
  }

  /** Mean residual of a test over the cylinders read. */
  public double level(int test) {
    return Arrays.stream(residual[test]).filter(r -> !Double.isNaN(r)).average().orElse(0);
  }

  /** How many cylinders of a test were read. */
  public int cylindersRead(int test) {
    return (int) Arrays.stream(residual[test]).filter(r -> !Double.isNaN(r)).count();
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

  /** Where the engine's own usage is not known, it is counted from the family's usual usage. */
  private static double[] usage(EngineReadings readings, FamilyNorm norm) {
    double usual = norm.range().usualUsage();
    if (readings.ownDistance()) {
      return Arrays.stream(readings.usage()).map(u -> Double.isNaN(u) ? usual : u).toArray();
    }
    double first =
        Arrays.stream(readings.usage()).filter(u -> !Double.isNaN(u)).findFirst().orElse(0);
    return Arrays.stream(readings.usage())
        .map(u -> Double.isNaN(u) ? usual : usual + u - first)
        .toArray();
  }

  private static double[][] residuals(
      EngineReadings readings, double[] usage, FamilyNorm norm, FleetNorms norms) {
    double[][] residual = new double[usage.length][];
    for (int t = 0; t < usage.length; t++) {
      double expected =
          norm.curve().at(usage[t])
              + norms.gauge(readings.gaugeIds()[t]).offsetLogOn(readings.conditions()[t].day())
              + norms.covariates().shiftLog(norm.family(), readings.conditions()[t]);
      double[] logs = readings.logKpa()[t];
      residual[t] = new double[logs.length];
      for (int c = 0; c < logs.length; c++) {
        residual[t][c] = EngineReadings.limited(logs[c] - expected - norm.position(c));
      }
    }
    return residual;
  }

  private static double[][] levelCovariance(
      EngineReadings readings, double[] x, FamilyNorm norm, FleetNorms norms) {
    VarianceComponents v = norm.components();
    double common = v.engine() + usageVariance(readings, norm);
    double[][] covariance = new double[x.length][x.length];
    for (int i = 0; i < x.length; i++) {
      for (int j = 0; j <= i; j++) {
        double sameGauge = norms.gaugeErrorCovariance(norm, readings, i, j);
        covariance[i][j] =
            common + v.slope() * x[i] * x[j] + norm.curve().covariance(x[i], x[j]) + sameGauge;
        covariance[j][i] = covariance[i][j];
      }
      covariance[i][i] += v.test();
    }
    return covariance;
  }

  private static double usageVariance(EngineReadings readings, FamilyNorm norm) {
    boolean known =
        readings.ownDistance() && Arrays.stream(readings.usage()).noneMatch(Double::isNaN);
    return known ? 0 : norm.range().usageLevelVariance();
  }
}

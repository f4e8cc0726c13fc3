package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
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
    GaugeOffset[] gauges = norms.gauges(readings.gaugeIds());
    VarianceComponents v = norm.components();
    double[] readingVariance = readings.roundingVariance().clone();
    for (int t = 0; t < readingVariance.length; t++) {
      readingVariance[t] += v.reading();
    }
    return new HealthyModel(
        readings,
        usage,
        residuals(readings, usage, gauges, new Expected(norm, norms.covariates())),
        levelCovariance(readings, usage, gauges, norm),
        v.cylinder() + norm.positionVariance(),
        readingVariance);
  }

  /** How many tests. */
  public int tests() {
    return usage.length;
  }

  /** Mean residual of a test over the cylinders read. */
  public double level(int test) {
    double sum = 0;
    int read = 0;
    for (double r : residual[test]) {
      if (!Double.isNaN(r)) {
        sum += r;
        read++;
      }
    }
    return read == 0 ? 0 : sum / read;
  }

  /** How many cylinders of a test were read. */
  public int cylindersRead(int test) {
    int read = 0;
    for (double r : residual[test]) {
      read += Double.isNaN(r) ? 0 : 1;
    }
    return read;
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
    double start = readings.ownDistance() ? 0 : usual - firstKnown(readings.usage());
    double[] usage = readings.usage().clone();
    for (int t = 0; t < usage.length; t++) {
      usage[t] = Double.isNaN(usage[t]) ? usual : start + usage[t];
    }
    return usage;
  }

  private static double firstKnown(double[] usage) {
    for (double u : usage) {
      if (!Double.isNaN(u)) {
        return u;
      }
    }
    return 0;
  }

  /** What a healthy engine's log readings are expected to be made of. */
  private record Expected(FamilyNorm norm, CovariateEffects covariates) {}

  private static double[][] residuals(
      EngineReadings readings, double[] usage, GaugeOffset[] gauges, Expected healthy) {
    FamilyNorm norm = healthy.norm();
    double[][] residual = new double[usage.length][];
    for (int t = 0; t < usage.length; t++) {
      TestConditions conditions = readings.conditions()[t];
      double expected =
          norm.curve().at(usage[t])
              + gauges[t].offsetLogOn(conditions.day())
              + healthy.covariates().shiftLog(norm.family(), conditions);
      double[] logs = readings.logKpa()[t];
      residual[t] = new double[logs.length];
      for (int c = 0; c < logs.length; c++) {
        residual[t][c] = EngineReadings.limited(logs[c] - expected - norm.position(c));
      }
    }
    return residual;
  }

  private static double[][] levelCovariance(
      EngineReadings readings, double[] x, GaugeOffset[] gauges, FamilyNorm norm) {
    VarianceComponents v = norm.components();
    double common = v.engine() + usageVariance(readings, norm);
    GaugeError[] errors = new GaugeError[x.length];
    double[][] covariance = norm.curve().covariances(x);
    for (int i = 0; i < x.length; i++) {
      errors[i] = GaugeError.of(norm, gauges[i], readings.conditions()[i].day());
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

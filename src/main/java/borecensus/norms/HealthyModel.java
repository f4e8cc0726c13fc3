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
    return of(history, EngineReadings.usedTests(history), norm, norms);
  }

  /** One test alone, trusted or not. */
  public static HealthyModel of(
      EngineHistory history, CompressionTest test, FamilyNorm norm, FleetNorms norms) {
    return of(history, List.of(test), norm, norms);
  }

  private static HealthyModel of(
      EngineHistory history, List<CompressionTest> used, FamilyNorm norm, FleetNorms norms) {
    String[] gaugeIds = new String[used.size()];
    for (int t = 0; t < gaugeIds.length; t++) {
      gaugeIds[t] = used.get(t).gaugeId();
    }
    GaugeOffset[] gauges = norms.gauges(gaugeIds);
    double[] resolutionKpa = new double[gauges.length];
    for (int t = 0; t < gauges.length; t++) {
      resolutionKpa[t] = gauges[t].resolutionKpa();
    }
    EngineReadings readings = EngineReadings.of(history, used, norm.axis(), resolutionKpa);
    return of(Measured.of(readings, gauges), norm, norms.covariates());
  }

  static HealthyModel of(EngineReadings readings, FamilyNorm norm, FleetNorms norms) {
    Measured measured = Measured.of(readings, norms.gauges(readings.gaugeIds()));
    return of(measured, norm, norms.covariates());
  }

  private static HealthyModel of(Measured measured, FamilyNorm norm, CovariateEffects covariates) {
    EngineReadings readings = measured.readings();
    double[] usage = usage(readings, norm);
    VarianceComponents v = norm.components();
    double[] readingVariance = readings.roundingVariance().clone();
    for (int t = 0; t < readingVariance.length; t++) {
      readingVariance[t] += v.reading();
    }
    return new HealthyModel(
        readings,
        usage,
        residuals(measured, usage, norm, covariates),
        levelCovariance(measured, usage, norm),
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

  /**
   * Readings with the gauge of each test, looked up once.
   *
   * @param periods by test, of its gauge on that day
   */
  private record Measured(EngineReadings readings, GaugeOffset[] gauges, int[] periods) {

    static Measured of(EngineReadings readings, GaugeOffset[] gauges) {
      int[] periods = new int[gauges.length];
      for (int t = 0; t < periods.length; t++) {
        periods[t] = gauges[t].periodOn(readings.conditions()[t].day());
      }
      return new Measured(readings, gauges, periods);
    }

    double offsetLog(int test) {
      return gauges[test].offsetLogIn(periods[test]);
    }

    GaugeError error(FamilyNorm norm, int test) {
      return GaugeError.of(norm, gauges[test], periods[test]);
    }
  }

  private static double[][] residuals(
      Measured measured, double[] usage, FamilyNorm norm, CovariateEffects covariates) {
    EngineReadings readings = measured.readings();
    double[] conditionShifts = covariates.shiftsLog(norm.family(), readings.conditions());
    double[][] residual = new double[usage.length][];
    for (int t = 0; t < usage.length; t++) {
      double expected = norm.curve().at(usage[t]) + measured.offsetLog(t) + conditionShifts[t];
      double[] logs = readings.logKpa()[t];
      residual[t] = new double[logs.length];
      for (int c = 0; c < logs.length; c++) {
        residual[t][c] = EngineReadings.limited(logs[c] - expected - norm.position(c));
      }
    }
    return residual;
  }

  private static double[][] levelCovariance(Measured measured, double[] x, FamilyNorm norm) {
    VarianceComponents v = norm.components();
    double common = v.engine() + usageVariance(measured.readings(), norm);
    GaugeError[] errors = new GaugeError[x.length];
    double[][] covariance = norm.curve().covariances(x);
    for (int i = 0; i < x.length; i++) {
      errors[i] = measured.error(norm, i);
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

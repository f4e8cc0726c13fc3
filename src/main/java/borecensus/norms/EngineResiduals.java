package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.util.List;

/**
 * What is left of one engine's readings when the norm is taken from them. The arrays are shared,
 * not copied: they are read only.
 *
 * @param readings what was read
 * @param gauges by test, as far as they are known
 * @param gaugePeriods by test, of its gauge on that day
 * @param usage by test, model units; filled in where not known
 * @param residual log reading less family mean, position, gauge offset and the effect of the test's
 *     conditions, limited to a believed deviation, by test and cylinder; NaN where not read
 * @param cylinderVariance of what all tests of a cylinder share
 * @param readingVariance by test, of one reading, rounding included
 */
public record EngineResiduals(
    EngineReadings readings,
    GaugeOffset[] gauges,
    int[] gaugePeriods,
    double[] usage,
    double[][] residual,
    double cylinderVariance,
    double[] readingVariance) {

  /** The engine's last trusted tests, of which there must be at least one. */
  public static EngineResiduals of(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return of(history, EngineReadings.usedTests(history), norm, norms);
  }

  /** One test alone, trusted or not. */
  public static EngineResiduals of(
      EngineHistory history, CompressionTest test, FamilyNorm norm, FleetNorms norms) {
    return of(history, List.of(test), norm, norms);
  }

  private static EngineResiduals of(
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

  static EngineResiduals of(EngineReadings readings, FamilyNorm norm, FleetNorms norms) {
    return of(Measured.of(readings, norms.gauges(readings.gaugeIds())), norm, norms.covariates());
  }

  private static EngineResiduals of(
      Measured measured, FamilyNorm norm, CovariateEffects covariates) {
    EngineReadings readings = measured.readings();
    double[] usage = usage(readings, norm);
    VarianceComponents v = norm.components();
    double[] readingVariance = readings.roundingVariance().clone();
    for (int t = 0; t < readingVariance.length; t++) {
      readingVariance[t] += v.reading();
    }
    return new EngineResiduals(
        readings,
        measured.gauges(),
        measured.periods(),
        usage,
        residuals(measured, usage, norm, covariates),
        v.cylinder() + norm.positionVariance(),
        readingVariance);
  }

  /** The tests whose usage is known. */
  EngineResiduals withKnownUsage(FamilyNorm norm, FleetNorms norms) {
    EngineReadings known = readings.withKnownUsage();
    return known == readings ? this : of(known, norm, norms);
  }

  /** How many tests. */
  public int tests() {
    return usage.length;
  }

  /** Mean residual of a test over the cylinders read. */
  double level(int test) {
    return mean(residual[test]);
  }

  /** How many cylinders of a test were read. */
  int cylindersRead(int test) {
    return read(residual[test]);
  }

  /** Mean over what was read; zero where nothing was. */
  static double mean(double[] residual) {
    double sum = 0;
    int read = 0;
    for (double r : residual) {
      if (!Double.isNaN(r)) {
        sum += r;
        read++;
      }
    }
    return read == 0 ? 0 : sum / read;
  }

  /** How many were read. */
  static int read(double[] residual) {
    int read = 0;
    for (double r : residual) {
      read += Double.isNaN(r) ? 0 : 1;
    }
    return read;
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

  /** What the gauge of a test may still be wrong by. */
  GaugeError gaugeError(FamilyNorm norm, int test) {
    return GaugeError.of(norm, gauges[test], gaugePeriods[test]);
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
}

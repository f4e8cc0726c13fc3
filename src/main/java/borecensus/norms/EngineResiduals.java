package borecensus.norms;

import borecensus.domain.EngineHistory;

/**
 * What is left of one engine's readings when the norm is taken from them. The arrays are shared,
 * not copied: they are read only.
 *
 * @param readings what was read
 * @param gauges by test, as far as they are known
 * @param usage by test, model units; filled in where not known
 * @param residual log reading less family mean, position, gauge offset and the effect of the test's
 *     conditions, limited to a believed deviation, by test and cylinder; NaN where not read
 * @param cylinderVariance of what all tests of a cylinder share
 * @param readingVariance by test, of one reading, rounding included
 */
public record EngineResiduals(
    EngineReadings readings,
    GaugeOffset[] gauges,
    double[] usage,
    double[][] residual,
    double cylinderVariance,
    double[] readingVariance) {

  /** The engine's last trusted tests, of which there must be at least one. */
  public static EngineResiduals of(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    return of(
        EngineReadings.of(history, norm.axis(), g -> norms.gauge(g).resolutionKpa()), norm, norms);
  }

  static EngineResiduals of(EngineReadings readings, FamilyNorm norm, FleetNorms norms) {
    double[] usage = usage(readings, norm);
    GaugeOffset[] gauges = norms.gauges(readings.gaugeIds());
    VarianceComponents v = norm.components();
    double[] readingVariance = readings.roundingVariance().clone();
    for (int t = 0; t < readingVariance.length; t++) {
      readingVariance[t] += v.reading();
    }
    return new EngineResiduals(
        readings,
        gauges,
        usage,
        residuals(readings, usage, gauges, new Expected(norm, norms.covariates())),
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
}

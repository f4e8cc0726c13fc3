package borecensus.norms;

import borecensus.statistics.Quantiles;
import java.util.Arrays;

/**
 * The test levels of one engine against the current norm.
 *
 * @param weight how far the engine counts: its probability of being healthy
 * @param deviation by test: level less family mean, gauge offset and the effect of the test's
 *     conditions
 * @param precision inverse covariance of the levels, tests out of line counting less
 */
record EngineLevels(
    EngineReadings readings, double weight, double[] deviation, double[][] precision) {

  /** Beyond so many standard errors a test is out of line (Huber, 1964, Ann. Math. Stat. 35). */
  static final double HUBER_LIMIT = 2.5;

  /** How the cylinders of a test are summed up: by their mean, or so that some may be faulty. */
  enum Summary {
    MEAN {
      @Override
      double of(double[] values) {
        double sum = 0;
        for (double value : values) {
          sum += value;
        }
        return values.length == 0 ? 0 : sum / values.length;
      }
    },
    MEDIAN {
      @Override
      double of(double[] values) {
        return Quantiles.median(values);
      }
    };

    abstract double of(double[] values);
  }

  static EngineLevels of(EngineResiduals model, FamilyNorm norm, double weight, Summary summary) {
    int tests = model.tests();
    double[] deviation = new double[tests];
    for (int t = 0; t < tests; t++) {
      deviation[t] = summary.of(read(model.residual()[t]));
    }
    double[] noise = noise(model, norm);
    double[][] precision = Cholesky.of(covariance(model, norm, noise)).inverse();
    boolean outOfLine = false;
    for (int t = 0; t < tests; t++) {
      double far = Math.abs(standardised(precision, deviation, t)) / HUBER_LIMIT;
      noise[t] *= Math.max(1, far);
      outOfLine |= !(far <= 1);
    }
    double[][] counted =
        outOfLine ? Cholesky.of(covariance(model, norm, noise)).inverse() : precision;
    return new EngineLevels(model.readings(), weight, deviation, counted);
  }

  /** The values that are there, in order. */
  static double[] read(double[] values) {
    double[] read = new double[values.length];
    int count = 0;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        read[count++] = value;
      }
    }
    return count == read.length ? read : Arrays.copyOf(read, count);
  }

  /** Deviation of one test from what the others foretell, in its standard errors. */
  private static double standardised(double[][] precision, double[] deviation, int t) {
    double score = 0;
    for (int u = 0; u < deviation.length; u++) {
      score += precision[t][u] * deviation[u];
    }
    return score / Math.sqrt(precision[t][t]);
  }

  private static double[] noise(EngineResiduals model, FamilyNorm norm) {
    double[] noise = new double[model.tests()];
    for (int t = 0; t < noise.length; t++) {
      noise[t] = norm.components().test() + model.readingVariance()[t] / model.cylindersRead(t);
    }
    return noise;
  }

  /** Of the levels of a healthy engine when the norm and the gauges are known. */
  private static double[][] covariance(EngineResiduals model, FamilyNorm norm, double[] noise) {
    VarianceComponents v = norm.components();
    double[] x = model.usage();
    double common = v.engine() + model.cylinderVariance() / norm.family().cylinders();
    double[][] covariance = Zeros.square(x.length);
    for (int i = 0; i < x.length; i++) {
      for (int j = 0; j < x.length; j++) {
        covariance[i][j] = common + v.slope() * x[i] * x[j] + (i == j ? noise[i] : 0);
      }
    }
    return covariance;
  }
}

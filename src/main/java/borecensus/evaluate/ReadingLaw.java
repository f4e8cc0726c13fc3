package borecensus.evaluate;

import borecensus.domain.CompressionTest;
import borecensus.norms.HealthyModel;
import borecensus.norms.VarianceComponents;
import java.util.Arrays;

/**
 * What one healthy engine's residuals are drawn from: normal, with what all readings of a test
 * share, what all tests of a cylinder share, and reading noise.
 *
 * @param residual by test and cylinder
 * @param levelCovariance between tests, of what all cylinders of a test share
 * @param cylinderVariance of what all tests of a cylinder share
 * @param readingVariance by test and cylinder, rounding included
 */
record ReadingLaw(
    double[][] residual,
    double[][] levelCovariance,
    double cylinderVariance,
    double[][] readingVariance) {

  /** Under the fleet's true parameters; rounding counts as its variance, step^2 / 12. */
  static ReadingLaw ofTruth(TrueEngine engine, TrueFleet fleet) {
    TrueFamily family = fleet.familyOf(engine);
    VarianceComponents v = family.components();
    double[] x = engine.usage();
    int tests = x.length;
    double[][] residual = new double[tests][];
    double[][] level = new double[tests][tests];
    double[][] reading = new double[tests][];
    for (int t = 0; t < tests; t++) {
      CompressionTest test = engine.history().tests().get(t);
      double expected = family.level().at(x[t]) + fleet.gaugeOffsets().get(test.gaugeId());
      residual[t] = new double[test.referenceKpa().length];
      for (int c = 0; c < residual[t].length; c++) {
        residual[t][c] = Math.log(test.referenceKpa()[c]) - expected - family.positions()[c];
      }
      reading[t] = new double[residual[t].length];
      Arrays.fill(reading[t], v.reading() + roundingVariance(test, fleet));
      for (int u = 0; u < tests; u++) {
        level[t][u] = v.engine() + v.slope() * x[t] * x[u];
      }
      level[t][t] += v.test() + engine.weatherVariance()[t];
    }
    return new ReadingLaw(residual, level, v.cylinder(), reading);
  }

  static double roundingVariance(CompressionTest test, TrueFleet fleet) {
    double middle = Arrays.stream(test.gaugeKpa()).average().orElseThrow();
    double step = fleet.registers().gauges().get(test.gaugeId()).resolutionKpa() / middle;
    return step * step / 12;
  }

  /** As the model sees it. */
  static ReadingLaw ofModel(HealthyModel model) {
    double[][] reading = new double[model.tests()][];
    for (int t = 0; t < reading.length; t++) {
      reading[t] = new double[model.residual()[t].length];
      Arrays.fill(reading[t], model.readingVariance()[t]);
    }
    return new ReadingLaw(
        model.residual(), model.levelCovariance(), model.cylinderVariance(), reading);
  }

  int tests() {
    return residual.length;
  }

  int cylinders() {
    return residual[0].length;
  }
}

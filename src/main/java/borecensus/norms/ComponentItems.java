package borecensus.norms;

import borecensus.norms.ComponentPattern.Common;
import borecensus.norms.ComponentPattern.Own;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/** What one engine's test levels, and its cylinders against each other, say on variances. */
final class ComponentItems {
  private ComponentItems() {}

  /**
   * Levels: engine, slope and test. The scatter is the square of the residuals plus the error of
   * what was subtracted, which makes the estimate restricted maximum likelihood.
   */
  static ComponentItem levels(
      EngineResiduals model, FamilyNorm norm, FleetNorms norms, double weight) {
    int tests = model.tests();
    double[] x = model.usage();
    double[][] scatter = Zeros.square(tests);
    double[][] known = Zeros.square(tests);
    double[] levels = new double[tests];
    Arrays.setAll(levels, model::level);
    double lasting = model.cylinderVariance() / norm.family().cylinders();
    for (int i = 0; i < tests; i++) {
      for (int j = 0; j < tests; j++) {
        scatter[i][j] =
            levels[i] * levels[j]
                + norm.curve().covariance(x[i], x[j])
                + norms.gaugeErrorCovariance(norm, model.readings(), i, j);
        known[i][j] = lasting;
      }
      known[i][i] += model.readingVariance()[i] / model.cylindersRead(i);
    }
    List<ComponentPattern> patterns = List.of(shared(tests), new Common(x), new Own());
    return new ComponentItem(weight, 1, scatter, known, patterns);
  }

  /** Cylinders against each other, over those read in every test: cylinder and reading. */
  static ComponentItem spreads(EngineResiduals model, double weight) {
    int tests = model.tests();
    double[][] contrasts = commonContrasts(model.residual());
    double[][] scatter = Zeros.square(tests);
    double[][] known = Zeros.square(tests);
    for (int i = 0; i < tests; i++) {
      for (int j = 0; j < tests; j++) {
        for (int c = 0; c < contrasts[i].length; c++) {
          scatter[i][j] += contrasts[i][c] * contrasts[j][c];
        }
      }
      known[i][i] = model.readings().roundingVariance()[i];
    }
    double degrees = Math.max(0, contrasts[0].length - 1);
    List<ComponentPattern> patterns = List.of(shared(tests), new Own());
    return new ComponentItem(degrees > 0 ? weight : 0, degrees, scatter, known, patterns);
  }

  private static double[][] commonContrasts(double[][] residual) {
    int cylinders = residual[0].length;
    int[] common =
        IntStream.range(0, cylinders)
            .filter(c -> Arrays.stream(residual).noneMatch(test -> Double.isNaN(test[c])))
            .toArray();
    double[][] contrasts = Zeros.of(residual.length, common.length);
    for (int t = 0; t < residual.length; t++) {
      double[] test = residual[t];
      double mean = Arrays.stream(common).mapToDouble(c -> test[c]).average().orElse(0);
      for (int i = 0; i < common.length; i++) {
        contrasts[t][i] = test[common[i]] - mean;
      }
    }
    return contrasts;
  }

  private static ComponentPattern shared(int tests) {
    double[] ones = new double[tests];
    Arrays.fill(ones, 1);
    return new Common(ones);
  }
}

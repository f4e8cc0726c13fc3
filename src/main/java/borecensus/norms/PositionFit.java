package borecensus.norms;

import java.util.Arrays;
import java.util.List;

/**
 * Effects of the cylinder positions of one family: means over engines of each cylinder's contrast,
 * engines far out counting less (Huber, 1964), drawn to zero by the prior variance.
 */
final class PositionFit {
  private final double[] present;
  private final double[] sums;
  private final double[] weights;

  private PositionFit(FamilyNorm norm) {
    present = norm.positions().stream().mapToDouble(p -> p).toArray();
    sums = new double[present.length];
    weights = new double[present.length];
  }

  /** The norm with new position effects. Weights stand beside the engines. */
  static FamilyNorm fit(
      List<HealthyModel> engines, double[] engineWeights, FamilyNorm norm, FuelPriors priors) {
    PositionFit fit = new PositionFit(norm);
    for (int i = 0; i < engineWeights.length; i++) {
      fit.add(engines.get(i), engineWeights[i], norm.components());
    }
    return fit.result(norm, 1 / priors.positionVariance());
  }

  private void add(HealthyModel engine, double engineWeight, VarianceComponents v) {
    for (int c = 0; c < sums.length; c++) {
      double sum = 0;
      int read = 0;
      for (int t = 0; t < engine.tests(); t++) {
        double contrast = engine.residual()[t][c] - engine.level(t);
        if (!Double.isNaN(contrast)) {
          sum += contrast;
          read++;
        }
      }
      if (read > 0) {
        double variance = v.cylinder() + engine.readingVariance()[0] / read;
        double far = Math.abs(sum / read) / Math.sqrt(variance) / EngineLevels.HUBER_LIMIT;
        double weight = engineWeight / variance / Math.max(1, far);
        sums[c] += weight * (present[c] + sum / read);
        weights[c] += weight;
      }
    }
  }

  private FamilyNorm result(FamilyNorm norm, double priorWeight) {
    double[] effects = new double[sums.length];
    double variance = 0;
    for (int c = 0; c < effects.length; c++) {
      effects[c] = sums[c] / (weights[c] + priorWeight);
      variance += 1 / (weights[c] + priorWeight) / effects.length;
    }
    double mean = Arrays.stream(effects).average().orElse(0);
    return norm.withPositions(Arrays.stream(effects).map(e -> e - mean).boxed().toList(), variance);
  }
}

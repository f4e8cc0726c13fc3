package borecensus.norms;

import java.util.Arrays;
import java.util.Collection;
import java.util.List;

/**
 * Effects of the cylinder positions of one family: means over engines of each cylinder's contrast,
 * engines far out counting less (Huber, 1964), drawn to zero as far as the positions of all
 * families are found to be alike.
 */
final class PositionFit {
  private static final int VARIANCE_STEPS = 100;
  private static final double SETTLED = 1e-4;

  private final double[] present;
  private final double[] sums;
  private final double[] weights;

  private PositionFit(FamilyNorm norm) {
    present = norm.positions().stream().mapToDouble(p -> p).toArray();
    sums = new double[present.length];
    weights = new double[present.length];
  }

  /** What the engines of one family say. Weights stand beside the engines. */
  static PositionFit of(List<EngineResiduals> engines, double[] engineWeights, FamilyNorm norm) {
    PositionFit fit = new PositionFit(norm);
    for (int i = 0; i < engineWeights.length; i++) {
      fit.add(engines.get(i), engineWeights[i], norm.components());
    }
    return fit;
  }

  /**
   * Variance of the positions of a family, by expectation and maximisation over all families
   * (Dempster, Laird and Rubin, 1977, section 4.5). The effects of c cylinders sum to zero and
   * count for c - 1.
   *
   * @param believed the variance before, which counts for so many positions
   */
  static double variance(Collection<PositionFit> families, double believed, double positions) {
    double variance = believed;
    for (int i = 0; i < VARIANCE_STEPS; i++) {
      double sum = positions * believed;
      double count = positions;
      for (PositionFit family : families) {
        double[] effects = family.effects(1 / variance);
        double free = 1 - 1.0 / effects.length;
        for (int c = 0; c < effects.length; c++) {
          sum += effects[c] * effects[c] + free / (family.weights[c] + 1 / variance);
          count += free;
        }
      }
      double better = sum / count;
      boolean settled = Math.abs(better / variance - 1) < SETTLED;
      variance = better;
      if (settled) {
        break;
      }
    }
    return variance;
  }

  private void add(EngineResiduals engine, double engineWeight, VarianceComponents v) {
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

  /** The norm with new position effects, drawn to zero by this variance. */
  FamilyNorm result(FamilyNorm norm, double variance) {
    double error = 0;
    for (double weight : weights) {
      error += 1 / (weight + 1 / variance) / weights.length;
    }
    return norm.withPositions(Arrays.stream(effects(1 / variance)).boxed().toList(), error);
  }

  private double[] effects(double priorWeight) {
    double[] effects = new double[sums.length];
    for (int c = 0; c < effects.length; c++) {
      effects[c] = sums[c] / (weights[c] + priorWeight);
    }
    double mean = Arrays.stream(effects).average().orElse(0);
    return Arrays.stream(effects).map(e -> e - mean).toArray();
  }
}

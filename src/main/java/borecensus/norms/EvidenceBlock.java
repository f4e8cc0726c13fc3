package borecensus.norms;

import java.util.Arrays;
import java.util.List;

/**
 * The evidence of some engines, off the log scale, for weighing them over and over under other laws
 * of faults: likelihood ratios are divided by one near the engine's largest. Numbers of one size of
 * one fault stand together for all engines, so that the inner loops run along them.
 *
 * @param groups numbers of the groups of engines that share their priors, those met here alone
 * @param groupOf by engine, place of its group among these
 * @param health by engine, of health, which is 1 before the division
 * @param ratios by {@link Hypothesis#ordinal}, size and engine
 */
record EvidenceBlock(int[] groups, int[] groupOf, double[] health, double[][][] ratios) {

  /**
   * Packs engines, of which there is at least one, with what inspections have told of them.
   *
   * @param groupNumbers by engine
   */
  static EvidenceBlock of(List<FaultEvidence> engines, int[] groupNumbers) {
    Hypothesis[] hypotheses = Hypothesis.values();
    int n = engines.size();
    double[] health = new double[n];
    double[][][] ratios = new double[hypotheses.length][][];
    for (int h = 0; h < ratios.length; h++) {
      ratios[h] = Zeros.of(engines.get(0).sums().get(h).sizes(), n);
    }
    for (int e = 0; e < n; e++) {
      List<RatioSum> sums = engines.get(e).sums();
      double[] logs = new double[hypotheses.length];
      double top = 0;
      for (int h = 0; h < logs.length; h++) {
        logs[h] = sums.get(h).logUnit() + engines.get(e).known().logRatio(hypotheses[h]);
        top = Math.max(top, logs[h]);
      }
      for (int h = 0; h < logs.length; h++) {
        sums.get(h).copyTo(ratios[h], e, Math.exp(logs[h] - top));
      }
      health[e] = Math.exp(-top);
    }
    int[] groups = Arrays.stream(groupNumbers).distinct().sorted().toArray();
    int[] groupOf = Arrays.stream(groupNumbers).map(g -> Arrays.binarySearch(groups, g)).toArray();
    return new EvidenceBlock(groups, groupOf, health, ratios);
  }

  /**
   * What the engines show under one law.
   *
   * @param faults by group met here and {@link Hypothesis#ordinal}, how many engines have each
   * @param sizes by {@link Hypothesis#ordinal} and size, how many engines have that fault
   */
  record Counts(double[][] faults, double[][] sizes) {}

  /**
   * Weighs the engines.
   *
   * @param allPriors by group of the whole sample and {@link Hypothesis#ordinal}
   * @param sizeWeights probabilities of the sizes by {@link Hypothesis#ordinal}
   */
  Counts weigh(double[][] allPriors, double[][] sizeWeights) {
    double[][] priors = Arrays.stream(groups).mapToObj(g -> allPriors[g]).toArray(double[][]::new);
    double[][] odds = new double[ratios.length][];
    double[] whole = healthy(priors);
    for (int h = 0; h < odds.length; h++) {
      odds[h] = summed(ratios[h], sizeWeights[h]);
      for (int e = 0; e < whole.length; e++) {
        whole[e] += priors[groupOf[e]][h] * odds[h][e];
      }
    }
    double[][] faults = Zeros.of(groups.length, ratios.length);
    double[][] sizes = new double[ratios.length][];
    for (int h = 0; h < ratios.length; h++) {
      double[] each = new double[whole.length];
      for (int e = 0; e < whole.length; e++) {
        each[e] = priors[groupOf[e]][h] / whole[e];
        faults[groupOf[e]][h] += each[e] * odds[h][e];
      }
      sizes[h] = sizes(ratios[h], sizeWeights[h], each);
    }
    return new Counts(faults, sizes);
  }

  /** Odds of health by engine. */
  private double[] healthy(double[][] priors) {
    double[] odds = health.clone();
    for (int e = 0; e < odds.length; e++) {
      double healthy = 1;
      for (double prior : priors[groupOf[e]]) {
        healthy -= prior;
      }
      odds[e] *= healthy;
    }
    return odds;
  }

  private static double[] sizes(double[][] rows, double[] weights, double[] each) {
    double[] sizes = new double[rows.length];
    for (int i = 0; i < sizes.length; i++) {
      sizes[i] = weights[i] * Cholesky.dot(each, rows[i], each.length);
    }
    return sizes;
  }

  /** Weighted sum of rows. */
  private static double[] summed(double[][] rows, double[] weights) {
    double[] sums = new double[rows[0].length];
    for (int i = 0; i < rows.length; i++) {
      double weight = weights[i];
      double[] row = rows[i];
      for (int e = 0; e < sums.length; e++) {
        sums[e] += weight * row[e];
      }
    }
    return sums;
  }
}

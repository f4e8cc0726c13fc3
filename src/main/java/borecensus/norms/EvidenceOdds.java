package borecensus.norms;

/**
 * One engine's evidence, off the log scale, for weighing it over and over under other laws of
 * faults: likelihood ratios are divided by the largest.
 *
 * @param health of health, which is 1 before the division
 * @param scale by {@link Hypothesis#ordinal}, what the sums of {@link RatioSum} are multiplied by
 */
record EvidenceOdds(FaultEvidence evidence, double health, double[] scale) {

  static EvidenceOdds of(FaultEvidence evidence) {
    double top = 0;
    for (RatioSum sum : evidence.sums()) {
      top = Math.max(top, sum.logTop());
    }
    double[] scale = new double[evidence.sums().size()];
    for (int h = 0; h < scale.length; h++) {
      scale[h] = Math.exp(evidence.sums().get(h).logTop() - top);
    }
    return new EvidenceOdds(evidence, Math.exp(-top), scale);
  }

  /** Sums of likelihood ratios by fault, in the fault's own scale. */
  double[] sums(double[][] sizeWeights) {
    double[] sums = new double[scale.length];
    for (int h = 0; h < sums.length; h++) {
      sums[h] = evidence.sums().get(h).sum(sizeWeights[h]);
    }
    return sums;
  }

  /**
   * How probable each fault is.
   *
   * @param priors by {@link Hypothesis#ordinal}
   * @param sums as {@link #sums}
   */
  double[] weigh(double[] priors, double[] sums) {
    double[] p = new double[priors.length];
    double healthy = 1;
    double whole = 0;
    for (int h = 0; h < p.length; h++) {
      p[h] = priors[h] * scale[h] * sums[h];
      healthy -= priors[h];
      whole += p[h];
    }
    whole += healthy * health;
    for (int h = 0; h < p.length; h++) {
      p[h] /= whole;
    }
    return p;
  }
}

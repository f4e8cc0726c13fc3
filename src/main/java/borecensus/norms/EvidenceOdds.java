package borecensus.norms;

/**
 * One engine's evidence, off the log scale, for weighing it over and over under other laws of
 * faults: likelihood ratios are divided by the largest.
 *
 * @param health of health, which is 1 before the division
 * @param scale by {@link Hypothesis#ordinal}, what the sums of {@link RatioSum} are multiplied by
 */
record EvidenceOdds(FaultEvidence evidence, double health, double[] scale) {

  /** With what an inspection has told of the engine. */
  static EvidenceOdds of(FaultEvidence evidence) {
    Hypothesis[] hypotheses = Hypothesis.values();
    double[] logs = new double[hypotheses.length];
    double top = 0;
    for (int h = 0; h < logs.length; h++) {
      logs[h] = evidence.sums().get(h).logTop() + evidence.known().logRatio(hypotheses[h]);
      top = Math.max(top, logs[h]);
    }
    double[] scale = new double[logs.length];
    for (int h = 0; h < logs.length; h++) {
      scale[h] = Math.exp(logs[h] - top);
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

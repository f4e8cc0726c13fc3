package borecensus.norms;

/** How common faults are, and how large. */
record FaultLaw(HypothesisShares shares, FaultSizes sizes) {

  /**
   * How probable each state of one engine is: by {@link Hypothesis#ordinal}, with health last. They
   * sum to one.
   *
   * @param sizeWeights {@link FaultSizes#weights}
   */
  double[] weigh(FaultEvidence evidence, double[][] sizeWeights) {
    double[] priors = shares.priors(evidence.familyId(), evidence.tests());
    double[] logs = new double[priors.length + 1];
    double faulty = 0;
    Hypothesis[] hypotheses = Hypothesis.values();
    for (int h = 0; h < priors.length; h++) {
      logs[h] =
          Math.log(priors[h])
              + evidence.sums().get(h).log(sizeWeights[h])
              + evidence.known().logRatio(hypotheses[h]);
      faulty += priors[h];
    }
    logs[priors.length] = Math.log(1 - faulty);
    return FaultPosterior.normalised(logs);
  }
}

package borecensus.norms;

import borecensus.statistics.QuickExp;

/**
 * Ways in which the values of one cylinder, or of the engine as a whole, may be wide: lastingly; in
 * one test; or in every test from one on, which is what a fault that comes late looks like.
 *
 * @param lasting a wide offset in all tests
 * @param single by test, log likelihood ratio of wide noise in that test alone
 * @param scores by test, direction of the deviation; shared, not copied: it is read only
 * @param since by test but the first and last, log likelihood ratio of wide noise in each test from
 *     that one on; NaN for those two
 */
record TailColumn(Part lasting, double[] single, double[] scores, double[] since) {

  /** Terms this far below the largest on the log scale are lost in its last digit. */
  private static final double NEGLIGIBLE = -45;

  /**
   * One part.
   *
   * @param logRatio log likelihood ratio of wide against usual
   * @param score direction of the deviation
   */
  record Part(double logRatio, double score) {

    /** Probability that it is wide. */
    double probability(double share) {
      return 1 / (1 + Math.exp(-logRatio - Math.log(share / (1 - share))));
    }
  }

  /**
   * Log of 1 + the sum over all ways of prior odds x likelihood ratio.
   *
   * @param logLasting log of the share of wide offsets
   * @param logNoise log of the share of wide noise
   */
  double gain(double logLasting, double logNoise) {
    int tests = single.length;
    double offset = logLasting + lasting.logRatio();
    double top = Math.max(0, offset);
    for (int t = 0; t < tests; t++) {
      double alone = logNoise + single[t];
      double from = (tests - t) * logNoise + since[t];
      top = alone > top ? alone : top;
      top = from > top ? from : top;
    }
    double sum = exp(-top) + exp(offset - top);
    for (int t = 0; t < tests; t++) {
      sum += exp(logNoise + single[t] - top) + exp((tests - t) * logNoise + since[t] - top);
    }
    return top + Math.log(sum);
  }

  /** Exponential of a term against the largest; zero of what is lost beside it, and of NaN. */
  private static double exp(double logTerm) {
    return logTerm > NEGLIGIBLE ? QuickExp.of(logTerm) : 0;
  }

  /** See {@link TailOdds#wide}. */
  double[] wide(double lastingShare, double noiseShare) {
    return TailOdds.of(this).wide(lastingShare, noiseShare);
  }
}

package borecensus.norms;

import java.util.Arrays;

/**
 * Ways in which the values of one cylinder, or of the engine as a whole, may be wide: lastingly; in
 * one test; or in every test from one on, which is what a fault that comes late looks like.
 *
 * @param lasting a wide offset in all tests
 * @param single by test, wide noise in that test alone
 * @param since by test but the first and last, log likelihood ratio of wide noise in each test from
 *     that one on; NaN for those two
 */
record TailColumn(Part lasting, Part[] single, double[] since) {

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
    double[] terms = terms(logLasting, logNoise);
    double top = terms[0];
    for (double term : terms) {
      top = term > top ? term : top;
    }
    double sum = 0;
    for (double term : terms) {
      if (term > top + NEGLIGIBLE) {
        sum += Math.exp(term - top);
      }
    }
    return top + Math.log(sum);
  }

  /** See {@link TailOdds#wide}. */
  double[] wide(double lastingShare, double noiseShare) {
    return TailOdds.of(this).wide(lastingShare, noiseShare);
  }

  /** Logs of prior odds x likelihood ratio: as usual, wide offset, then by test alone and since. */
  private double[] terms(double logLasting, double logNoise) {
    double[] terms = new double[2 + 2 * single.length];
    Arrays.fill(terms, Double.NEGATIVE_INFINITY);
    terms[0] = 0;
    terms[1] = logLasting + lasting.logRatio();
    for (int t = 0; t < single.length; t++) {
      terms[2 + 2 * t] = logNoise + single[t].logRatio();
      if (!Double.isNaN(since[t])) {
        terms[3 + 2 * t] = (single.length - t) * logNoise + since[t];
      }
    }
    return terms;
  }
}

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

  static TailColumn of(SetBlocks blocks, double lastingVariance, double[] noiseVariances) {
    int tests = noiseVariances.length;
    double[] everyTest = new double[tests];
    Arrays.fill(everyTest, 1);
    Part[] single = new Part[tests];
    double[] since = new double[tests];
    Arrays.fill(since, Double.NaN);
    for (int t = 0; t < tests; t++) {
      single[t] = part(blocks.ofTest(t), noiseVariances[t]);
      if (t > 0 && t < tests - 1) {
        since[t] = separateShifts(blocks, t, Tails.ADDED_VARIANCE * noiseVariances[t]);
      }
    }
    return new TailColumn(part(blocks.template(everyTest), lastingVariance), single, since);
  }

  private static Part part(Template u, double variance) {
    return new Part(u.logRatioOfNormalShift(Tails.ADDED_VARIANCE * variance), u.score());
  }

  /**
   * Log likelihood ratio of independent normal shifts of this variance v in each test from one on:
   * with A and s the blocks of W and W z, -log|I + v A| / 2 + v s'(I + v A)^-1 s / 2.
   */
  private static double separateShifts(SetBlocks blocks, int from, double variance) {
    int n = blocks.weighted().length - from;
    double[][] lower = new double[n][n];
    double[] pivots = new double[n];
    double[] left = new double[n];
    double determinant = 1;
    double quadratic = 0;
    // One pass of the factors L D L' gives the determinant, and with L^-1 s the quadratic form.
    for (int i = 0; i < n; i++) {
      double[] row = blocks.precision()[from + i];
      double pivot = 1 + variance * row[from + i];
      double score = blocks.weighted()[from + i];
      for (int j = 0; j < i; j++) {
        double product = variance * row[from + j];
        for (int k = 0; k < j; k++) {
          product -= lower[i][k] * pivots[k] * lower[j][k];
        }
        lower[i][j] = product / pivots[j];
        pivot -= product * lower[i][j];
        score -= lower[i][j] * left[j];
      }
      pivots[i] = pivot;
      left[i] = score;
      determinant *= pivot;
      quadratic += score * score / pivot;
    }
    return (variance * quadratic - Math.log(determinant)) / 2;
  }

  /** Log of 1 + the sum over all ways of prior odds x likelihood ratio. */
  double gain(double lastingShare, double noiseShare) {
    double[] terms = terms(lastingShare, noiseShare);
    double top = terms[0];
    for (double term : terms) {
      top = Math.max(top, term);
    }
    double sum = 0;
    for (double term : terms) {
      sum += Math.exp(term - top);
    }
    return top + Math.log(sum);
  }

  /** See {@link TailOdds#wide}. */
  double[] wide(double lastingShare, double noiseShare) {
    return TailOdds.of(this).wide(lastingShare, noiseShare);
  }

  /** Logs of prior odds x likelihood ratio: as usual, wide offset, then by test alone and since. */
  private double[] terms(double lastingShare, double noiseShare) {
    double logNoise = Math.log(noiseShare);
    double[] terms = new double[2 + 2 * single.length];
    Arrays.fill(terms, Double.NEGATIVE_INFINITY);
    terms[0] = 0;
    terms[1] = Math.log(lastingShare) + lasting.logRatio();
    for (int t = 0; t < single.length; t++) {
      terms[2 + 2 * t] = logNoise + single[t].logRatio();
      if (!Double.isNaN(since[t])) {
        terms[3 + 2 * t] = (single.length - t) * logNoise + since[t];
      }
    }
    return terms;
  }
}

package borecensus.norms;

/**
 * The likelihood ratios of a {@link TailColumn}, off the log scale, for weighing them over and over
 * under other shares: all are divided by the largest.
 *
 * @param usual of no wide part, which is 1 before the division
 * @param lasting of a wide offset
 * @param single by test, of wide noise in that test alone
 * @param since by test, of wide noise from that one on; zero where there is none
 */
record TailOdds(double usual, double lasting, double[] single, double[] since) {

  static TailOdds of(TailColumn column) {
    double top = Math.max(0, column.lasting().logRatio());
    int tests = column.single().length;
    for (int t = 0; t < tests; t++) {
      top = Math.max(top, column.single()[t]);
      top = column.since()[t] > top ? column.since()[t] : top;
    }
    double[] single = new double[tests];
    double[] since = new double[tests];
    for (int t = 0; t < tests; t++) {
      single[t] = Math.exp(column.single()[t] - top);
      boolean none = Double.isNaN(column.since()[t]);
      since[t] = none ? 0 : Math.exp(column.since()[t] - top);
    }
    return new TailOdds(Math.exp(-top), Math.exp(column.lasting().logRatio() - top), single, since);
  }

  /**
   * Probabilities that the lasting offset is wide (first) and that the noise of each test is,
   * oldest first: one deviation is explained once.
   */
  double[] wide(double lastingShare, double noiseShare) {
    int tests = single.length;
    double[] wide = new double[1 + tests];
    wide[0] = lastingShare * lasting;
    double sum = usual + wide[0];
    double power = 1;
    // From the newest test back, so that a share's powers are made one by one.
    for (int t = tests - 1; t >= 0; t--) {
      power *= noiseShare;
      double alone = noiseShare * single[t];
      double from = power * since[t];
      sum += alone + from;
      wide[1 + t] += alone;
      for (int u = t; u < tests && from > 0; u++) {
        wide[1 + u] += from;
      }
    }
    for (int i = 0; i < wide.length; i++) {
      wide[i] /= sum;
    }
    return wide;
  }
}

package borecensus.norms;

/**
 * The values of one engine in the crossed model of families and random effects.
 *
 * @param family number of its family
 * @param effects numbers of the random effects in each value: its gauge, and its site where sites
 *     are told apart
 * @param values what is left after everything but family mean and random effects
 * @param precision inverse covariance of the values within the engine
 */
record CrossedBlock(int family, int[][] effects, double[] values, double[][] precision) {

  /** Values of which each has a gauge and nothing else. */
  static CrossedBlock ofGauges(int family, int[] gauges, double[] values, double[][] precision) {
    int[][] effects = new int[gauges.length][];
    for (int t = 0; t < effects.length; t++) {
      effects[t] = new int[] {gauges[t]};
    }
    return new CrossedBlock(family, effects, values, precision);
  }

  /** The same engine counting so much less. */
  CrossedBlock scaled(double weight) {
    double[][] scaled = Zeros.square(precision.length);
    for (int t = 0; t < scaled.length; t++) {
      for (int u = 0; u < scaled.length; u++) {
        scaled[t][u] = weight * precision[t][u];
      }
    }
    return new CrossedBlock(family, effects, values, scaled);
  }
}

package borecensus.norms;

/** W z and W of a set of cylinders, summed over the set, by test. */
record SetBlocks(int[] cylinders, double[] weighted, double[][] precision) {

  static SetBlocks of(ReadingPrecision precision, int[] cylinders) {
    return precision.blocks(cylinders);
  }

  /** The set shifted in each test by this share. */
  Template template(double[] reach) {
    double score = 0;
    double information = 0;
    for (int t = 0; t < reach.length; t++) {
      if (reach[t] == 0) {
        continue;
      }
      score += reach[t] * weighted[t];
      for (int u = 0; u < reach.length; u++) {
        information += reach[t] * reach[u] * precision[t][u];
      }
    }
    return new Template(score, information, cylinders);
  }
}

package borecensus.norms;

/** W z and W of a set of cylinders, summed over the set, by test. */
record SetBlocks(int[] cylinders, double[] weighted, double[][] precision) {

  static SetBlocks of(ReadingPrecision precision, int[] cylinders) {
    return precision.blocks(cylinders);
  }

  /** The set shifted in each test by this share. */
  Template template(double[] reach) {
    return new Template(score(reach), information(reach), cylinders);
  }

  /** The set shifted in one test alone. */
  Template ofTest(int test) {
    return new Template(weighted[test], precision[test][test], cylinders);
  }

  /** u'Wz of the set shifted in each test by this share. */
  double score(double[] reach) {
    double score = 0;
    for (int t = 0; t < reach.length; t++) {
      score += reach[t] * weighted[t];
    }
    return score;
  }

  /** u'Wu of the same. */
  double information(double[] reach) {
    double information = 0;
    for (int t = 0; t < reach.length; t++) {
      if (reach[t] != 0) {
        double row = 0;
        for (int u = 0; u < reach.length; u++) {
          row += reach[u] * precision[t][u];
        }
        information += reach[t] * row;
      }
    }
    return information;
  }
}

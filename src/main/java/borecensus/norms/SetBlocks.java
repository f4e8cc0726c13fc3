package borecensus.norms;

/** W z and W of a set of cylinders, summed over the set, by test. */
record SetBlocks(int[] cylinders, double[] weighted, double[][] precision) {

  static SetBlocks of(ReadingPrecision precision, int[] cylinders) {
    return precision.blocks(cylinders);
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
    int first = first(reach);
    for (int t = first; t < reach.length; t++) {
      double[] precisions = precision[t];
      double below = 0;
      for (int u = first; u < t; u++) {
        below += reach[u] * precisions[u];
      }
      information += reach[t] * (2 * below + reach[t] * precisions[t]);
    }
    return information;
  }

  /** The first test that is reached: most faults come late. */
  private static int first(double[] reach) {
    int first = 0;
    while (first < reach.length && reach[first] == 0) {
      first++;
    }
    return first;
  }
}

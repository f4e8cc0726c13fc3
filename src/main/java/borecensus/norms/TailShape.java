package borecensus.norms;

/**
 * What the likelihood ratios of a {@link TailColumn} take from the precision of its values alone,
 * and not from what was read: cylinders that are alike share it.
 *
 * @param precision inverse covariance W of the values, by pair of tests
 * @param lasting of an offset in all tests
 * @param single by test, of noise in that test alone
 * @param since by test but the first and last, of noise in each test from that one on; null for
 *     those two
 */
record TailShape(double[][] precision, Shift lasting, Shift[] single, LaterTests[] since) {

  /**
   * The log likelihood ratio of a shift d u whose d is normal with mean 0 and variance v, see
   * {@link Template#logRatioOfNormalShift}: a parabola in the score u'Wz.
   *
   * @param scale v / (2 g), with g = 1 + v u'Wu
   * @param halfLogGrowth log(g) / 2
   */
  record Shift(double scale, double halfLogGrowth) {
    static Shift of(double variance, double information) {
      double growth = 1 + variance * information;
      return new Shift(variance / (2 * growth), Math.log(growth) / 2);
    }

    double logRatio(double score) {
      return scale * score * score - halfLogGrowth;
    }
  }

  static TailShape of(double[][] precision, double lastingVariance, double[] noiseVariances) {
    int tests = noiseVariances.length;
    Shift[] single = new Shift[tests];
    LaterTests[] since = new LaterTests[tests];
    double all = 0;
    for (int t = 0; t < tests; t++) {
      double variance = Tails.ADDED_VARIANCE * noiseVariances[t];
      single[t] = Shift.of(variance, precision[t][t]);
      since[t] = t > 0 && t < tests - 1 ? LaterTests.of(precision, t, variance) : null;
      double row = 0;
      for (double value : precision[t]) {
        row += value;
      }
      all += row;
    }
    Shift lasting = Shift.of(Tails.ADDED_VARIANCE * lastingVariance, all);
    return new TailShape(precision, lasting, single, since);
  }

  /** With the sums of W z, by test. */
  TailColumn column(double[] weighted) {
    int tests = single.length;
    double[] alone = new double[tests];
    double[] later = new double[tests];
    double all = 0;
    for (int t = 0; t < tests; t++) {
      alone[t] = single[t].logRatio(weighted[t]);
      later[t] = since[t] == null ? Double.NaN : since[t].logRatio(weighted);
      all += weighted[t];
    }
    return new TailColumn(new TailColumn.Part(lasting.logRatio(all), all), alone, weighted, later);
  }

  /**
   * Independent normal shifts of one variance v in each test from one on: with A the block of W of
   * these tests, the factors L D L' of I + v A.
   *
   * @param rows by rows, L below the diagonal and 1 / D on it
   * @param logDeterminant of I + v A
   */
  record LaterTests(int from, double variance, double[] rows, double logDeterminant) {

    static LaterTests of(double[][] precision, int from, double variance) {
      int n = precision.length - from;
      double[] rows = new double[n * n];
      double determinant = 1;
      for (int i = 0; i < n; i++) {
        double[] information = precision[from + i];
        int row = i * n;
        double pivot = 1 + variance * information[from + i];
        for (int j = 0; j < i; j++) {
          // Until the row is done it holds L D.
          double product = variance * information[from + j];
          for (int k = 0; k < j; k++) {
            product -= rows[row + k] * rows[j * n + k];
          }
          rows[row + j] = product;
        }
        for (int j = 0; j < i; j++) {
          double product = rows[row + j];
          rows[row + j] = product * rows[j * n + j];
          pivot -= product * rows[row + j];
        }
        rows[row + i] = 1 / pivot;
        determinant *= pivot;
      }
      return new LaterTests(from, variance, rows, Math.log(determinant));
    }

    /** With s the values of W z: -log|I + v A| / 2 + v s'(I + v A)^-1 s / 2. */
    double logRatio(double[] weighted) {
      int n = weighted.length - from;
      double[] left = new double[n];
      double quadratic = 0;
      for (int i = 0; i < n; i++) {
        double score = weighted[from + i];
        int row = i * n;
        for (int j = 0; j < i; j++) {
          score -= rows[row + j] * left[j];
        }
        left[i] = score;
        quadratic += score * score * rows[row + i];
      }
      return (variance * quadratic - logDeterminant) / 2;
    }
  }
}

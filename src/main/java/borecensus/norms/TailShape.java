package borecensus.norms;

import java.util.Arrays;

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
   * A shift d u whose d is normal with mean 0.
   *
   * @param variance v of d
   * @param growth 1 + v u'Wu
   * @param logGrowth log of that
   */
  record Shift(double variance, double growth, double logGrowth) {
    static Shift of(double variance, double information) {
      double growth = 1 + variance * information;
      return new Shift(variance, growth, Math.log(growth));
    }

    /** Log likelihood ratio of the shift, see {@link Template#logRatioOfNormalShift}. */
    double logRatio(double score) {
      return variance * score * score / (2 * growth) - logGrowth / 2;
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
    TailColumn.Part[] parts = new TailColumn.Part[tests];
    double[] later = new double[tests];
    Arrays.fill(later, Double.NaN);
    double all = 0;
    for (int t = 0; t < tests; t++) {
      parts[t] = part(single[t], weighted[t]);
      all += weighted[t];
      if (since[t] != null) {
        later[t] = since[t].logRatio(weighted);
      }
    }
    return new TailColumn(part(lasting, all), parts, later);
  }

  private static TailColumn.Part part(Shift shift, double score) {
    return new TailColumn.Part(shift.logRatio(score), score);
  }

  /**
   * Independent normal shifts of one variance v in each test from one on: with A the block of W of
   * these tests, the factors L D L' of I + v A.
   *
   * @param lower L by rows, without the ones of its diagonal
   * @param pivots D
   * @param logDeterminant of I + v A
   */
  record LaterTests(
      int from, double variance, double[][] lower, double[] pivots, double logDeterminant) {

    static LaterTests of(double[][] precision, int from, double variance) {
      int n = precision.length - from;
      double[][] lower = new double[n][];
      double[] pivots = new double[n];
      double determinant = 1;
      for (int i = 0; i < n; i++) {
        double[] row = precision[from + i];
        double[] factors = new double[i];
        double pivot = 1 + variance * row[from + i];
        for (int j = 0; j < i; j++) {
          double product = variance * row[from + j];
          for (int k = 0; k < j; k++) {
            product -= factors[k] * pivots[k] * lower[j][k];
          }
          factors[j] = product / pivots[j];
          pivot -= product * factors[j];
        }
        lower[i] = factors;
        pivots[i] = pivot;
        determinant *= pivot;
      }
      return new LaterTests(from, variance, lower, pivots, Math.log(determinant));
    }

    /** With s the values of W z: -log|I + v A| / 2 + v s'(I + v A)^-1 s / 2. */
    double logRatio(double[] weighted) {
      double[] left = new double[pivots.length];
      double quadratic = 0;
      for (int i = 0; i < left.length; i++) {
        double score = weighted[from + i];
        double[] factors = lower[i];
        for (int j = 0; j < i; j++) {
          score -= factors[j] * left[j];
        }
        left[i] = score;
        quadratic += score * score / pivots[i];
      }
      return (variance * quadratic - logDeterminant) / 2;
    }
  }
}

package borecensus.norms;

/**
 * A running weighted sum of likelihood ratios, kept on the log scale, with the sums that tell which
 * cylinders and which size carry it.
 */
final class RatioSum {
  /** By cylinder, or by test for a fault of a test. */
  private final double[] byCylinder;

  private double top = Double.NEGATIVE_INFINITY;
  private double sum;
  private double shiftSum;

  RatioSum(int cylinders) {
    byCylinder = new double[cylinders];
  }

  void add(double logTerm, double shift, int[] cylinders) {
    if (logTerm > top) {
      rescale(Math.exp(top - logTerm));
      top = logTerm;
    }
    double term = Math.exp(logTerm - top);
    sum += term;
    shiftSum += term * shift;
    for (int c : cylinders) {
      byCylinder[c] += term;
    }
  }

  private void rescale(double factor) {
    sum *= factor;
    shiftSum *= factor;
    for (int c = 0; c < byCylinder.length; c++) {
      byCylinder[c] *= factor;
    }
  }

  /** Log of the sum; minus infinity when nothing was added. */
  double log() {
    return top + Math.log(sum);
  }

  /** Probability that each cylinder is struck, given this fault. */
  double[] cylinderProbabilities() {
    double[] shares = byCylinder.clone();
    for (int c = 0; c < shares.length; c++) {
      shares[c] = sum > 0 ? shares[c] / sum : 0;
    }
    return shares;
  }

  /** Posterior mean of the log shift, given this fault; zero when nothing was added. */
  double meanShift() {
    return sum > 0 ? shiftSum / sum : 0;
  }
}

package borecensus.norms;

/**
 * A weighted sum of likelihood ratios of one fault, kept on the log scale and apart by size, so
 * that it can be weighed under another law of sizes.
 */
final class RatioSum {
  private final double[] weights;
  private final double[] bySize;

  /** By cylinder, or by test for a fault of a test; weighted by size. */
  private final double[] byCylinder;

  /** Log of what the sums are counted in. */
  private final double unit;

  /**
   * A sum that was made.
   *
   * @param weights probabilities of the sizes
   * @param bySize in multiples of the unit
   * @param byCylinder of those that strike it, weighted by size, in the same
   * @param unit log of the largest term; minus infinity when there is none
   */
  RatioSum(double[] weights, double[] bySize, double[] byCylinder, double unit) {
    this.weights = weights;
    this.bySize = bySize;
    this.byCylinder = byCylinder;
    this.unit = unit;
  }

  /** Log of the sum under this law of sizes; minus infinity when nothing was added. */
  double log(double[] otherWeights) {
    return unit + Math.log(sum(otherWeights));
  }

  /** Log of what {@link #sum} counts in: the largest term. */
  double logUnit() {
    return unit;
  }

  /** The sum under this law of sizes, in multiples of the unit. */
  double sum(double[] otherWeights) {
    double sum = 0;
    for (int i = 0; i < bySize.length; i++) {
      sum += otherWeights[i] * bySize[i];
    }
    return sum;
  }

  /** How many sizes. */
  int sizes() {
    return bySize.length;
  }

  /**
   * Writes the sum by size, times a factor, into one column of a table.
   *
   * @param table by size and column
   */
  void copyTo(double[][] table, int column, double factor) {
    for (int i = 0; i < bySize.length; i++) {
      table[i][column] = factor * bySize[i];
    }
  }

  /** Probability that each cylinder is struck, given this fault. */
  double[] cylinderProbabilities() {
    double sum = sum(weights);
    double[] shares = byCylinder.clone();
    for (int c = 0; c < shares.length; c++) {
      shares[c] = sum > 0 ? shares[c] / sum : 0;
    }
    return shares;
  }

  /** Posterior mean of the log shift, given this fault; zero when nothing was added. */
  double meanShift(double[] shifts) {
    double sum = 0;
    for (int i = 0; i < bySize.length; i++) {
      sum += weights[i] * bySize[i] * shifts[i];
    }
    return sum == 0 ? 0 : sum / sum(weights);
  }
}

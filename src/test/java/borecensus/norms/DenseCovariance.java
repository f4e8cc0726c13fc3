package borecensus.norms;

/**
 * The covariance of all readings of one healthy engine written out in full: the reference that the
 * structured algebra of {@link ReadingPrecision} is held against.
 */
final class DenseCovariance {
  private DenseCovariance() {}

  /** Number of each reading, or -1 where a cylinder was not read. */
  static int[][] index(double[][] residual) {
    int[][] index = new int[residual.length][];
    int next = 0;
    for (int t = 0; t < residual.length; t++) {
      index[t] = new int[residual[t].length];
      for (int c = 0; c < residual[t].length; c++) {
        index[t][c] = Double.isNaN(residual[t][c]) ? -1 : next++;
      }
    }
    return index;
  }

  /** The covariance of the numbered readings of a healthy engine. */
  static double[][] covariance(HealthyModel model, int[][] index) {
    int n = 0;
    for (int[] row : index) {
      for (int i : row) {
        n = Math.max(n, i + 1);
      }
    }
    double[][] covariance = new double[n][n];
    for (int t = 0; t < index.length; t++) {
      for (int u = 0; u < index.length; u++) {
        fillBlock(covariance, model, index, t, u);
      }
    }
    return covariance;
  }

  private static void fillBlock(
      double[][] covariance, HealthyModel model, int[][] index, int t, int u) {
    double level = model.levelCovariance()[t][u];
    for (int c = 0; c < index[t].length; c++) {
      int row = index[t][c];
      if (row < 0) {
        continue;
      }
      for (int i : index[u]) {
        if (i >= 0) {
          covariance[row][i] = level;
        }
      }
      if (index[u][c] >= 0) {
        covariance[row][index[u][c]] += model.cylinderVariance();
      }
      if (t == u) {
        covariance[row][row] += model.readingVariance()[t];
      }
    }
  }
}

package borecensus.norms;

/**
 * The inverse covariance W of all readings of one engine, and W z, addressed by test and cylinder,
 * so that any fault template costs sums of blocks and no further decomposition.
 */
final class ReadingPrecision {
  private final int[][] index;
  private final double[][] precision;
  private final double[] weighted;

  private ReadingPrecision(int[][] index, double[][] precision, double[] weighted) {
    this.index = index;
    this.precision = precision;
    this.weighted = weighted;
  }

  static ReadingPrecision of(HealthyModel model) {
    int[][] index = index(model.residual());
    double[][] covariance = covariance(model, index);
    double[][] precision = Cholesky.of(covariance).inverse();
    double[] weighted = new double[precision.length];
    for (int t = 0; t < index.length; t++) {
      for (int c = 0; c < index[t].length; c++) {
        if (index[t][c] >= 0) {
          addScaled(weighted, precision[index[t][c]], model.residual()[t][c]);
        }
      }
    }
    return new ReadingPrecision(index, precision, weighted);
  }

  int tests() {
    return index.length;
  }

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

  private static void addScaled(double[] target, double[] row, double factor) {
    for (int i = 0; i < row.length; i++) {
      target[i] += factor * row[i];
    }
  }

  /** Sums over a set of cylinders (from 0) of W z, by test. */
  double[] weightedSums(int[] cylinders) {
    double[] sums = new double[index.length];
    for (int t = 0; t < index.length; t++) {
      for (int c : cylinders) {
        sums[t] += index[t][c] < 0 ? 0 : weighted[index[t][c]];
      }
    }
    return sums;
  }

  /** Sums over a set of cylinders (from 0) of the blocks of W, by pair of tests. */
  double[][] precisionSums(int[] cylinders) {
    double[][] sums = new double[index.length][index.length];
    for (int t = 0; t < index.length; t++) {
      for (int c : cylinders) {
        if (index[t][c] >= 0) {
          addRow(sums[t], precision[index[t][c]], cylinders);
        }
      }
    }
    return sums;
  }

  private void addRow(double[] sums, double[] row, int[] cylinders) {
    for (int u = 0; u < index.length; u++) {
      for (int c : cylinders) {
        sums[u] += index[u][c] < 0 ? 0 : row[index[u][c]];
      }
    }
  }
}

package borecensus.norms;

/**
 * The lower triangular factor of a small symmetric positive definite matrix, written for speed in
 * inner loops.
 */
final class Cholesky {
  private final double[][] lower;

  private Cholesky(double[][] lower) {
    this.lower = lower;
  }

  /**
   * Factors a matrix, of which only the lower triangle is read.
   *
   * @throws IllegalArgumentException when it is not positive definite
   */
  static Cholesky of(double[][] matrix) {
    int n = matrix.length;
    double[][] l = new double[n][];
    for (int i = 0; i < n; i++) {
      l[i] = new double[i + 1];
      for (int j = 0; j <= i; j++) {
        double sum = matrix[i][j] - dot(l[i], l[j], j);
        if (i == j && !(sum > 0)) {
          throw new IllegalArgumentException("the matrix is not positive definite");
        }
        l[i][j] = i == j ? Math.sqrt(sum) : sum / l[j][j];
      }
    }
    return new Cholesky(l);
  }

  /**
   * Product of the first n numbers, in four sums, of which none has to wait for another; what is
   * left over goes to the first.
   */
  static double dot(double[] a, double[] b, int n) {
    double first = 0;
    double second = 0;
    double third = 0;
    double fourth = 0;
    int k = 0;
    for (; k + 3 < n; k += 4) {
      first += a[k] * b[k];
      second += a[k + 1] * b[k + 1];
      third += a[k + 2] * b[k + 2];
      fourth += a[k + 3] * b[k + 3];
    }
    for (; k < n; k++) {
      first += a[k] * b[k];
    }
    return first + second + (third + fourth);
  }

  /** The lower factor, by rows up to the diagonal; shared, not copied. */
  double[][] triangle() {
    return lower;
  }

  double logDeterminant() {
    double sum = 0;
    for (int i = 0; i < lower.length; i++) {
      sum += Math.log(lower[i][i]);
    }
    return 2 * sum;
  }

  double[] solve(double[] b) {
    int n = lower.length;
    double[] x = b.clone();
    for (int i = 0; i < n; i++) {
      x[i] = (x[i] - dot(lower[i], x, i)) / lower[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      x[i] /= lower[i][i];
      for (int j = 0; j < i; j++) {
        x[j] -= lower[i][j] * x[i];
      }
    }
    return x;
  }

  /** The inverse, both triangles. */
  double[][] inverse() {
    int n = lower.length;
    double[][] rows = invertedLower();
    double[][] inverse = Zeros.square(n);
    for (int k = 0; k < n; k++) {
      double[] row = rows[k];
      for (int i = 0; i <= k; i++) {
        double factor = row[i];
        double[] target = inverse[i];
        for (int j = 0; j <= i; j++) {
          target[j] += factor * row[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        inverse[j][i] = inverse[i][j];
      }
    }
    return inverse;
  }

  /** Rows of the inverse of the lower factor. */
  private double[][] invertedLower() {
    int n = lower.length;
    double[][] inv = Zeros.square(n);
    for (int i = 0; i < n; i++) {
      double[] row = inv[i];
      for (int k = 0; k < i; k++) {
        double factor = lower[i][k];
        double[] other = inv[k];
        for (int j = 0; j <= k; j++) {
          row[j] -= factor * other[j];
        }
      }
      for (int j = 0; j < i; j++) {
        row[j] /= lower[i][i];
      }
      row[i] = 1 / lower[i][i];
    }
    return inv;
  }
}

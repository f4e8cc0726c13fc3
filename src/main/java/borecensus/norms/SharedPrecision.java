package borecensus.norms;

import java.util.Arrays;

/**
 * The inverse K = (inverse of L + S)^-1 of the precision of the levels of tests that all cylinders
 * share, with L their covariance and S what the readings tell of them.
 *
 * <p>It is computed as R (I + R' S R)^-1 R' with L = R R', which needs no inverse of L. Matrices
 * are flat, by rows: they are small, and made several times an engine.
 *
 * @param tests how many
 * @param rows K by rows, both triangles
 */
record SharedPrecision(int tests, double[] rows) {

  /**
   * K.
   *
   * @param levels R R'
   * @param sum S by rows, both triangles
   */
  static SharedPrecision of(Cholesky levels, double[] sum) {
    double[][] root = levels.triangle();
    double[] factor = factored(within(root, sum), root.length);
    return new SharedPrecision(root.length, squared(solved(factor, root), root.length));
  }

  /** The lower triangle of I + R' S R. */
  private static double[] within(double[][] root, double[] sum) {
    int n = root.length;
    double[] within = new double[n * n];
    double[] product = new double[n];
    for (int k = 0; k < n; k++) {
      // A row of S R, met by all rows of R' that reach it.
      Arrays.fill(product, 0);
      for (int m = 0; m < n; m++) {
        double factor = sum[k * n + m];
        double[] other = root[m];
        for (int j = 0; j <= m; j++) {
          product[j] += factor * other[j];
        }
      }
      double[] column = root[k];
      for (int i = 0; i <= k; i++) {
        double factor = column[i];
        for (int j = 0; j <= i; j++) {
          within[i * n + j] += factor * product[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      within[i * n + i] += 1;
    }
    return within;
  }

  /**
   * The factor C of C C', in place of its lower triangle, with 1 / C_ii on the diagonal.
   *
   * @throws IllegalArgumentException when the matrix is not positive definite
   */
  private static double[] factored(double[] lower, int n) {
    for (int i = 0; i < n; i++) {
      int row = i * n;
      double pivot = lower[row + i];
      for (int j = 0; j < i; j++) {
        double sum = lower[row + j];
        for (int k = 0; k < j; k++) {
          sum -= lower[row + k] * lower[j * n + k];
        }
        double value = sum * lower[j * n + j];
        lower[row + j] = value;
        pivot -= value * value;
      }
      if (!(pivot > 0)) {
        throw new IllegalArgumentException("the matrix is not positive definite");
      }
      lower[row + i] = 1 / Math.sqrt(pivot);
    }
    return lower;
  }

  /** R times the inverse of C': each row solved forward. */
  private static double[] solved(double[] factor, double[][] root) {
    int n = root.length;
    double[] solved = new double[n * n];
    for (int j = 0; j < n; j++) {
      double[] right = root[j];
      int row = j * n;
      for (int i = 0; i < n; i++) {
        double sum = i < right.length ? right[i] : 0;
        for (int k = 0; k < i; k++) {
          sum -= factor[i * n + k] * solved[row + k];
        }
        solved[row + i] = sum * factor[i * n + i];
      }
    }
    return solved;
  }

  /** A matrix times its own transpose. */
  private static double[] squared(double[] rows, int n) {
    double[] squared = new double[n * n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = 0;
        for (int k = 0; k < n; k++) {
          sum += rows[i * n + k] * rows[j * n + k];
        }
        squared[i * n + j] = sum;
        squared[j * n + i] = sum;
      }
    }
    return squared;
  }

  /** K x. */
  double[] times(double[] x) {
    double[] product = new double[tests];
    for (int t = 0; t < tests; t++) {
      double sum = 0;
      for (int u = 0; u < tests; u++) {
        sum += rows[t * tests + u] * x[u];
      }
      product[t] = sum;
    }
    return product;
  }

  /**
   * A - A K A.
   *
   * @param a symmetric, by rows, both triangles
   */
  double[][] takenFrom(double[] a) {
    // Row by row: an array of arrays of unknown size is made by a call into the virtual machine.
    double[][] left = new double[tests][];
    for (int t = 0; t < tests; t++) {
      left[t] = new double[tests];
    }
    double[] drawn = new double[tests];
    for (int u = 0; u < tests; u++) {
      // A column of K A, met by the rows of A from its diagonal down.
      for (int v = 0; v < tests; v++) {
        double sum = 0;
        for (int w = 0; w < tests; w++) {
          sum += rows[v * tests + w] * a[u * tests + w];
        }
        drawn[v] = sum;
      }
      for (int t = u; t < tests; t++) {
        double common = 0;
        for (int v = 0; v < tests; v++) {
          common += a[t * tests + v] * drawn[v];
        }
        left[t][u] = a[t * tests + u] - common;
        left[u][t] = left[t][u];
      }
    }
    return left;
  }
}

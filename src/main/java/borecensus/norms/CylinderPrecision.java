package borecensus.norms;

import java.util.Arrays;

/**
 * The inverse covariance G of one cylinder's readings about the levels of their tests, by Sherman
 * and Morrison (1950): diag(own) - factor own own'.
 *
 * @param own 1 / variance of each reading about the cylinder's state; 0 where not read
 * @param factor k / (1 + k x the sum of own), k being the variance of the cylinder's state
 */
record CylinderPrecision(double[] own, double factor) {

  static CylinderPrecision of(double cylinderVariance, DialSites sites, int cylinder) {
    double[] own = new double[sites.residual().length];
    double sum = 0;
    for (int t = 0; t < own.length; t++) {
      boolean read = !Double.isNaN(sites.residual()[t][cylinder]);
      own[t] = read ? 1 / sites.variance()[t][cylinder] : 0;
      sum += own[t];
    }
    return new CylinderPrecision(own, cylinderVariance / (1 + cylinderVariance * sum));
  }

  /** Whether all are the same. */
  static boolean alike(CylinderPrecision[] cylinders) {
    for (CylinderPrecision cylinder : cylinders) {
      boolean same = cylinder == cylinders[0] || Arrays.equals(cylinder.own, cylinders[0].own);
      if (!same) {
        return false;
      }
    }
    return true;
  }

  /**
   * Adds so many cylinders like this one to the lower triangle of a sum.
   *
   * @param sum by rows
   */
  void addTo(double[] sum, int cylinders) {
    int n = own.length;
    for (int t = 0; t < n; t++) {
      double drawn = cylinders * factor * own[t];
      for (int u = 0; u <= t; u++) {
        sum[t * n + u] -= drawn * own[u];
      }
      sum[t * n + t] += cylinders * own[t];
    }
  }

  /** G x. */
  double[] times(double[] x) {
    double drawn = factor * dot(own, x);
    double[] product = new double[own.length];
    for (int t = 0; t < product.length; t++) {
      product[t] = own[t] * (x[t] - drawn);
    }
    return product;
  }

  /** G x, with x what the cylinder (from 0) read. */
  double[] times(DialSites sites, int cylinder) {
    double[] product = new double[own.length];
    double sum = 0;
    for (int t = 0; t < product.length; t++) {
      double value = sites.residual()[t][cylinder];
      product[t] = own[t] == 0 ? 0 : own[t] * value;
      sum += product[t];
    }
    double drawn = factor * sum;
    for (int t = 0; t < product.length; t++) {
      product[t] -= own[t] * drawn;
    }
    return product;
  }

  /**
   * m G - m G K m G, the sum of the blocks of m cylinders like this one: row t of G is own_t (e_t -
   * factor own').
   */
  double[][] sumLess(SharedPrecision k, int cylinders) {
    int n = own.length;
    double[] drawn = k.times(own);
    double squared = cylinders * factor * factor * dot(own, drawn);
    double[][] sum = new double[n][];
    for (int t = 0; t < n; t++) {
      sum[t] = new double[n];
      double row = cylinders * own[t];
      for (int u = 0; u <= t; u++) {
        double shared = cylinders * (k.rows()[t * n + u] - factor * (drawn[t] + drawn[u]));
        sum[t][u] = -row * own[u] * (factor + squared + shared);
        sum[u][t] = sum[t][u];
      }
      sum[t][t] += row;
    }
    return sum;
  }

  /** The diagonal of G - G K G. */
  double[] diagonalLess(SharedPrecision k) {
    int n = own.length;
    double[] drawn = k.times(own);
    double constant = factor + factor * factor * dot(own, drawn);
    double[] diagonal = new double[n];
    for (int t = 0; t < n; t++) {
      double shared = k.rows()[t * n + t] - 2 * factor * drawn[t];
      diagonal[t] = own[t] - own[t] * own[t] * (constant + shared);
    }
    return diagonal;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

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

  void addTo(double[][] sum) {
    for (int t = 0; t < own.length; t++) {
      double drawn = factor * own[t];
      for (int u = 0; u < own.length; u++) {
        sum[t][u] -= drawn * own[u];
      }
      sum[t][t] += own[t];
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

  /** G - G K G: row t of G is own_t (e_t - factor own'). */
  double[][] less(double[][] k) {
    double[] drawn = drawn(k);
    double constant = factor + factor * dot(own, drawn);
    double[][] block = new double[own.length][own.length];
    for (int t = 0; t < own.length; t++) {
      for (int u = 0; u < own.length; u++) {
        block[t][u] = -own[t] * own[u] * (constant + k[t][u] - drawn[t] - drawn[u]);
      }
      block[t][t] += own[t];
    }
    return block;
  }

  /** The diagonal of that. */
  double[] diagonalLess(double[][] k) {
    double[] drawn = drawn(k);
    double constant = factor + factor * dot(own, drawn);
    double[] diagonal = new double[own.length];
    for (int t = 0; t < own.length; t++) {
      diagonal[t] = own[t] - own[t] * own[t] * (constant + k[t][t] - 2 * drawn[t]);
    }
    return diagonal;
  }

  /** factor K own. */
  private double[] drawn(double[][] k) {
    double[] drawn = new double[own.length];
    for (int t = 0; t < own.length; t++) {
      drawn[t] = factor * dot(k[t], own);
    }
    return drawn;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

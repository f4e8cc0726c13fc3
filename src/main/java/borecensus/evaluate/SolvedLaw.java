package borecensus.evaluate;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * The inverse covariance of one engine's readings, used through its structure: with B_c = R_c + k
 * 11' the covariance of what a cylinder has of its own over the tests and L that of the levels,
 *
 * <pre>
 *   V^-1 = diag(B_c^-1) - [B_c^-1] (L^-1 + sum B_c^-1)^-1 [B_c^-1]'
 * </pre>
 *
 * (Woodbury, 1950), and B_c^-1 by the same rule in closed form. No matrix is larger than tests x
 * tests.
 */
final class SolvedLaw {
  /** Roundings may differ between the triangles by this share. */
  static final double ASYMMETRY = 1e-8;

  /** The smallest squared pivot: far below any variance of readings. */
  static final double SMALLEST = 1e-16;

  private final double[][][] own;
  private final double[][] shared;
  private final double[][] weighted;

  SolvedLaw(ReadingLaw law) {
    int tests = law.tests();
    own = new double[law.cylinders()][][];
    RealMatrix sum = inverse(new Array2DRowRealMatrix(law.levelCovariance()));
    for (int c = 0; c < own.length; c++) {
      own[c] = own(law, c);
      sum = sum.add(new Array2DRowRealMatrix(own[c], false));
    }
    shared = inverse(sum).getData();
    weighted = weigh(law.residual(), tests);
  }

  /** The inverse of a symmetric positive definite matrix. */
  static RealMatrix inverse(RealMatrix matrix) {
    return new CholeskyDecomposition(matrix, ASYMMETRY, SMALLEST).getSolver().getInverse();
  }

  private static double[][] own(ReadingLaw law, int cylinder) {
    int tests = law.tests();
    double[] precision = new double[tests];
    double total = 0;
    for (int t = 0; t < tests; t++) {
      precision[t] = 1 / law.readingVariance()[t][cylinder];
      total += precision[t];
    }
    double factor = law.cylinderVariance() / (1 + law.cylinderVariance() * total);
    double[][] inverse = new double[tests][tests];
    for (int t = 0; t < tests; t++) {
      for (int u = 0; u < tests; u++) {
        inverse[t][u] = (t == u ? precision[t] : 0) - factor * precision[t] * precision[u];
      }
    }
    return inverse;
  }

  /** V^-1 times values by test and cylinder. */
  double[][] weigh(double[][] values, int tests) {
    double[][] mine = new double[own.length][];
    double[] sums = new double[tests];
    for (int c = 0; c < own.length; c++) {
      double[] column = new double[tests];
      for (int t = 0; t < tests; t++) {
        column[t] = values[t][c];
      }
      mine[c] = times(own[c], column);
      addTo(sums, mine[c]);
    }
    double[] common = times(shared, sums);
    double[][] result = new double[tests][own.length];
    for (int c = 0; c < own.length; c++) {
      double[] less = times(own[c], common);
      for (int t = 0; t < tests; t++) {
        result[t][c] = mine[c][t] - less[t];
      }
    }
    return result;
  }

  /** Sums over these cylinders of V^-1 z, by test. */
  double[] scores(int[] cylinders) {
    double[] sums = new double[weighted.length];
    for (int t = 0; t < sums.length; t++) {
      for (int c : cylinders) {
        sums[t] += weighted[t][c];
      }
    }
    return sums;
  }

  /** Sums over these cylinders of the blocks of V^-1, by pair of tests. */
  double[][] information(int[] cylinders) {
    int tests = weighted.length;
    double[][] sum = new double[tests][tests];
    for (int c : cylinders) {
      for (int t = 0; t < tests; t++) {
        addTo(sum[t], own[c][t]);
      }
    }
    RealMatrix p = new Array2DRowRealMatrix(sum);
    RealMatrix k = new Array2DRowRealMatrix(shared, false);
    return p.subtract(p.multiply(k).multiply(p)).getData();
  }

  static double[] times(double[][] matrix, double[] vector) {
    double[] product = new double[vector.length];
    for (int i = 0; i < product.length; i++) {
      for (int j = 0; j < vector.length; j++) {
        product[i] += matrix[i][j] * vector[j];
      }
    }
    return product;
  }

  private static void addTo(double[] sum, double[] more) {
    for (int i = 0; i < sum.length; i++) {
      sum[i] += more[i];
    }
  }
}

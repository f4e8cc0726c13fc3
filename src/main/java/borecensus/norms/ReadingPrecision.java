package borecensus.norms;

import java.util.Arrays;

/**
 * The inverse covariance W of all readings of one engine, and W z, as sums over sets of cylinders,
 * by test.
 *
 * <p>Cylinders share only the level of their tests. With L the covariance of levels, and A_c = k
 * 11' + diag(r) that of cylinder c alone (k its lasting variance, r its readings'), the covariance
 * is blockdiag(A_c) + E L E', E adding a test's level to all its cylinders. Hence (Woodbury 1950;
 * Sherman and Morrison 1950 for each A_c)
 *
 * <pre>
 * W_cd = [c = d] G_c - G_c K G_d,  G_c = inverse of A_c,  K = inverse of (inverse of L + sum of G_c)
 * </pre>
 *
 * <p>so that nothing larger than tests x tests is ever decomposed. A reading that is missing leaves
 * its row and column of G_c at zero. K is computed as R (I + R' S R)^-1 R' with L = R R' and S the
 * sum of G_c, which needs no inverse of L.
 */
final class ReadingPrecision {
  private final double[][][] alone;
  private final double[][] aloneWeighted;
  private final double[][] shared;
  private final double[] sharedWeighted;

  /** Blocks made so far: single cylinders and all of them are asked for by many faults. */
  private final SetBlocks[] singles;

  private SetBlocks whole;

  private ReadingPrecision(
      double[][][] alone, double[][] aloneWeighted, double[][] shared, double[] sharedWeighted) {
    this.alone = alone;
    this.aloneWeighted = aloneWeighted;
    this.shared = shared;
    this.sharedWeighted = sharedWeighted;
    this.singles = new SetBlocks[alone.length];
  }

  /** Of an engine's readings as its dials tell them. */
  static ReadingPrecision of(HealthyModel model) {
    return of(model, DialSites.of(model));
  }

  static ReadingPrecision of(HealthyModel model, DialSites sites) {
    int tests = model.tests();
    int cylinders = model.residual()[0].length;
    double[][][] alone = new double[cylinders][][];
    double[][] aloneWeighted = new double[cylinders][];
    double[][] sum = new double[tests][tests];
    double[] weightedSum = new double[tests];
    for (int c = 0; c < cylinders; c++) {
      alone[c] = inverseOfOne(model, sites, c);
      aloneWeighted[c] = weighted(alone[c], sites.residual(), c);
      add(sum, alone[c]);
      for (int t = 0; t < tests; t++) {
        weightedSum[t] += aloneWeighted[c][t];
      }
    }
    double[][] shared = shared(model.levelCovariance(), sum);
    return new ReadingPrecision(alone, aloneWeighted, shared, times(shared, weightedSum));
  }

  /** G_c by Sherman and Morrison. */
  private static double[][] inverseOfOne(HealthyModel model, DialSites sites, int cylinder) {
    int tests = model.tests();
    double[] own = new double[tests];
    for (int t = 0; t < tests; t++) {
      boolean read = !Double.isNaN(sites.residual()[t][cylinder]);
      own[t] = read ? 1 / sites.variance()[t][cylinder] : 0;
    }
    double k = model.cylinderVariance();
    double factor = k / (1 + k * Arrays.stream(own).sum());
    double[][] inverse = new double[tests][tests];
    for (int t = 0; t < tests; t++) {
      for (int u = 0; u < tests; u++) {
        inverse[t][u] = -factor * own[t] * own[u];
      }
      inverse[t][t] += own[t];
    }
    return inverse;
  }

  private static double[] weighted(double[][] inverse, double[][] residual, int cylinder) {
    double[] weighted = new double[inverse.length];
    for (int u = 0; u < inverse.length; u++) {
      double z = residual[u][cylinder];
      if (!Double.isNaN(z)) {
        for (int t = 0; t < inverse.length; t++) {
          weighted[t] += inverse[t][u] * z;
        }
      }
    }
    return weighted;
  }

  /** K. */
  private static double[][] shared(double[][] level, double[][] sum) {
    double[][] root = Cholesky.of(level).lower();
    double[][] inner = times(transposed(root), times(sum, root));
    for (int t = 0; t < inner.length; t++) {
      inner[t][t] += 1;
    }
    return times(root, times(Cholesky.of(inner).inverse(), transposed(root)));
  }

  int tests() {
    return shared.length;
  }

  /** Both sums over a set of cylinders (from 0, each once). */
  SetBlocks blocks(int[] cylinders) {
    if (cylinders.length == 1) {
      int c = cylinders[0];
      singles[c] = singles[c] == null ? sums(cylinders) : singles[c];
      return singles[c];
    }
    if (cylinders.length == alone.length) {
      whole = whole == null ? sums(cylinders) : whole;
      return whole;
    }
    return sums(cylinders);
  }

  private SetBlocks sums(int[] cylinders) {
    return new SetBlocks(cylinders, weightedSums(cylinders), precisionSums(cylinders));
  }

  /** Sums over a set of cylinders (from 0) of W z, by test. */
  double[] weightedSums(int[] cylinders) {
    double[] sums = new double[tests()];
    double[][] own = new double[tests()][tests()];
    for (int c : cylinders) {
      add(own, alone[c]);
      for (int t = 0; t < sums.length; t++) {
        sums[t] += aloneWeighted[c][t];
      }
    }
    double[] common = times(own, sharedWeighted);
    for (int t = 0; t < sums.length; t++) {
      sums[t] -= common[t];
    }
    return sums;
  }

  /** Sums over a set of cylinders (from 0) of the blocks of W, by pair of tests. */
  double[][] precisionSums(int[] cylinders) {
    double[][] own = new double[tests()][tests()];
    for (int c : cylinders) {
      add(own, alone[c]);
    }
    double[][] common = times(own, times(shared, own));
    for (int t = 0; t < own.length; t++) {
      for (int u = 0; u < own.length; u++) {
        own[t][u] -= common[t][u];
      }
    }
    return own;
  }

  private static void add(double[][] target, double[][] term) {
    for (int i = 0; i < target.length; i++) {
      for (int j = 0; j < target.length; j++) {
        target[i][j] += term[i][j];
      }
    }
  }

  private static double[] times(double[][] a, double[] x) {
    double[] product = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < x.length; j++) {
        product[i] += a[i][j] * x[j];
      }
    }
    return product;
  }

  private static double[][] times(double[][] a, double[][] b) {
    int n = a.length;
    double[][] product = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        double factor = a[i][k];
        for (int j = 0; j < n; j++) {
          product[i][j] += factor * b[k][j];
        }
      }
    }
    return product;
  }

  private static double[][] transposed(double[][] a) {
    double[][] b = new double[a.length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < a.length; j++) {
        b[j][i] = a[i][j];
      }
    }
    return b;
  }
}

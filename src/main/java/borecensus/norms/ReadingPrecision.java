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
 *
 * <p>Cylinders of which the same tests were read with the same variances have the same G_c: then
 * the blocks of W summed over a set depend on nothing but how many cylinders it has.
 */
final class ReadingPrecision {
  private final CylinderPrecision[] alone;

  /** K. */
  private final double[][] shared;

  /** W z by cylinder and test. */
  private final double[][] weighted;

  /** Blocks made so far: single cylinders and all of them are asked for by many faults. */
  private final SetBlocks[] singles;

  private SetBlocks whole;

  /** Where cylinders are alike, precisions made so far, by number of cylinders; else null. */
  private final double[][][] bySize;

  private ReadingPrecision(CylinderPrecision[] alone, double[][] shared, double[][] weighted) {
    this.alone = alone;
    this.shared = shared;
    this.weighted = weighted;
    this.singles = new SetBlocks[alone.length];
    this.bySize = CylinderPrecision.alike(alone) ? new double[alone.length + 1][][] : null;
  }

  /** Of an engine's readings as its dials tell them. */
  static ReadingPrecision of(HealthyModel model) {
    return of(model, DialSites.of(model));
  }

  static ReadingPrecision of(HealthyModel model, DialSites sites) {
    return of(model, sites, Cholesky.of(model.levelCovariance()));
  }

  /** The same, with the factor of the covariance of levels at hand. */
  static ReadingPrecision of(HealthyModel model, DialSites sites, Cholesky levels) {
    int tests = model.tests();
    CylinderPrecision[] alone = new CylinderPrecision[sites.residual()[0].length];
    double[][] weighted = new double[alone.length][];
    double[][] sum = new double[tests][tests];
    double[] weightedSum = new double[tests];
    for (int c = 0; c < alone.length; c++) {
      boolean likeLast = c > 0 && sites.alike(c - 1, c);
      alone[c] = likeLast ? alone[c - 1] : CylinderPrecision.of(model.cylinderVariance(), sites, c);
      alone[c].addTo(sum);
      weighted[c] = alone[c].times(sites.residualOf(c));
      for (int t = 0; t < tests; t++) {
        weightedSum[t] += weighted[c][t];
      }
    }
    double[][] shared = shared(levels.triangle(), sum);
    double[] sharedWeighted = times(shared, weightedSum);
    double[] common = alone[0].times(sharedWeighted);
    for (int c = 0; c < alone.length; c++) {
      common = c > 0 && alone[c] != alone[c - 1] ? alone[c].times(sharedWeighted) : common;
      for (int t = 0; t < tests; t++) {
        weighted[c][t] -= common[t];
      }
    }
    return new ReadingPrecision(alone, shared, weighted);
  }

  /**
   * K.
   *
   * @param root R, of whose rows nothing is there past the diagonal
   */
  private static double[][] shared(double[][] root, double[][] sum) {
    double[][] x = Cholesky.of(within(root, sum)).forward(transposed(root));
    // K = X'X with X = C^-1 R', C C' being the matrix within.
    int n = x.length;
    double[][] shared = new double[n][n];
    for (int k = 0; k < n; k++) {
      double[] row = x[k];
      for (int i = 0; i < n; i++) {
        for (int j = 0; j <= i; j++) {
          shared[i][j] += row[i] * row[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        shared[j][i] = shared[i][j];
      }
    }
    return shared;
  }

  /** The lower triangle of I + R' S R. */
  private static double[][] within(double[][] root, double[][] sum) {
    int n = root.length;
    double[][] within = new double[n][];
    for (int i = 0; i < n; i++) {
      within[i] = new double[i + 1];
    }
    double[] product = new double[n];
    for (int k = 0; k < n; k++) {
      // A row of S R, met by all rows of R' that reach it.
      Arrays.fill(product, 0);
      for (int m = 0; m < n; m++) {
        double factor = sum[k][m];
        double[] other = root[m];
        for (int j = 0; j <= m; j++) {
          product[j] += factor * other[j];
        }
      }
      for (int i = 0; i <= k; i++) {
        double factor = root[k][i];
        for (int j = 0; j <= i; j++) {
          within[i][j] += factor * product[j];
        }
      }
    }
    for (int i = 0; i < n; i++) {
      within[i][i] += 1;
    }
    return within;
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
    if (cylinders.length == 1) {
      return weighted[cylinders[0]];
    }
    double[] sums = new double[tests()];
    for (int c : cylinders) {
      for (int t = 0; t < sums.length; t++) {
        sums[t] += weighted[c][t];
      }
    }
    return sums;
  }

  /** Sums over a set of cylinders (from 0) of the blocks of W, by pair of tests. */
  double[][] precisionSums(int[] cylinders) {
    if (bySize == null) {
      return precision(cylinders);
    }
    int size = cylinders.length;
    bySize[size] = bySize[size] == null ? precision(cylinders) : bySize[size];
    return bySize[size];
  }

  private double[][] precision(int[] cylinders) {
    if (cylinders.length == 1) {
      return alone[cylinders[0]].less(shared);
    }
    double[][] own = new double[tests()][tests()];
    for (int c : cylinders) {
      alone[c].addTo(own);
    }
    double[][] right = times(shared, own);
    double[][] sums = new double[tests()][tests()];
    for (int t = 0; t < sums.length; t++) {
      for (int u = 0; u <= t; u++) {
        double common = 0;
        for (int v = 0; v < sums.length; v++) {
          common += own[t][v] * right[v][u];
        }
        sums[t][u] = own[t][u] - common;
        sums[u][t] = sums[t][u];
      }
    }
    return sums;
  }

  /** The diagonal of the block of W of one cylinder (from 0), by test. */
  double[] information(int cylinder) {
    return alone[cylinder].diagonalLess(shared);
  }

  private static double[] times(double[][] a, double[] x) {
    double[] product = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      double sum = 0;
      for (int j = 0; j < x.length; j++) {
        sum += a[i][j] * x[j];
      }
      product[i] = sum;
    }
    return product;
  }

  private static double[][] times(double[][] a, double[][] b) {
    int n = a.length;
    double[][] product = new double[n][n];
    for (int i = 0; i < n; i++) {
      double[] row = product[i];
      for (int k = 0; k < n; k++) {
        double factor = a[i][k];
        double[] other = b[k];
        for (int j = 0; j < n; j++) {
          row[j] += factor * other[j];
        }
      }
    }
    return product;
  }

  /** Square, of a lower triangle. */
  private static double[][] transposed(double[][] lower) {
    double[][] upper = new double[lower.length][lower.length];
    for (int i = 0; i < lower.length; i++) {
      for (int j = 0; j <= i; j++) {
        upper[j][i] = lower[i][j];
      }
    }
    return upper;
  }
}

package borecensus.norms;

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
 * its row and column of G_c at zero. For K see {@link SharedPrecision}.
 *
 * <p>Cylinders of which the same tests were read with the same variances have the same G_c: then
 * the blocks of W summed over a set depend on nothing but how many cylinders it has.
 */
final class ReadingPrecision {
  private final CylinderPrecision[] alone;

  /** K. */
  private final SharedPrecision shared;

  /** W z by cylinder and test. */
  private final double[][] weighted;

  /** Blocks made so far: single cylinders and all of them are asked for by many faults. */
  private final SetBlocks[] singles;

  private SetBlocks whole;

  /** Where cylinders are alike, precisions made so far, by number of cylinders; else null. */
  private final double[][][] bySize;

  private ReadingPrecision(CylinderPrecision[] alone, SharedPrecision shared, double[][] weighted) {
    this.alone = alone;
    this.shared = shared;
    this.weighted = weighted;
    this.singles = new SetBlocks[alone.length];
    this.bySize = CylinderPrecision.alike(alone) ? new double[alone.length + 1][][] : null;
  }

  /** Of an engine's readings as its dials tell them. */
  static ReadingPrecision of(HealthyModel model) {
    Cholesky levels = Cholesky.of(model.levelCovariance());
    return of(model, DialSites.of(model, levels), levels);
  }

  static ReadingPrecision of(HealthyModel model, DialSites sites) {
    return of(model, sites, Cholesky.of(model.levelCovariance()));
  }

  /** The same, with the factor of the covariance of levels at hand. */
  static ReadingPrecision of(HealthyModel model, DialSites sites, Cholesky levels) {
    CylinderPrecision[] alone = new CylinderPrecision[sites.residual()[0].length];
    double[][] weighted = new double[alone.length][];
    double[] weightedSum = new double[model.tests()];
    for (int c = 0; c < alone.length; c++) {
      boolean likeLast = c > 0 && sites.alike(c - 1, c);
      alone[c] = likeLast ? alone[c - 1] : CylinderPrecision.of(model.cylinderVariance(), sites, c);
      weighted[c] = alone[c].times(sites, c);
      for (int t = 0; t < weightedSum.length; t++) {
        weightedSum[t] += weighted[c][t];
      }
    }
    SharedPrecision shared = SharedPrecision.of(levels, sum(alone));
    double[] sharedWeighted = shared.times(weightedSum);
    double[] common = alone[0].times(sharedWeighted);
    for (int c = 0; c < alone.length; c++) {
      common = c > 0 && alone[c] != alone[c - 1] ? alone[c].times(sharedWeighted) : common;
      for (int t = 0; t < weightedSum.length; t++) {
        weighted[c][t] -= common[t];
      }
    }
    return new ReadingPrecision(alone, shared, weighted);
  }

  /** The sum of G_c by rows. Neighbours that are alike are added at once. */
  private static double[] sum(CylinderPrecision[] cylinders) {
    int n = cylinders[0].own().length;
    double[] sum = new double[n * n];
    int from = 0;
    for (int c = 1; c <= cylinders.length; c++) {
      if (c == cylinders.length || cylinders[c] != cylinders[from]) {
        cylinders[from].addTo(sum, c - from);
        from = c;
      }
    }
    for (int t = 0; t < n; t++) {
      for (int u = 0; u < t; u++) {
        sum[u * n + t] = sum[t * n + u];
      }
    }
    return sum;
  }

  int tests() {
    return shared.tests();
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
      return weighted(cylinders[0]);
    }
    double[] sums = weighted[cylinders[0]].clone();
    for (int i = 1; i < cylinders.length; i++) {
      double[] each = weighted[cylinders[i]];
      for (int t = 0; t < sums.length; t++) {
        sums[t] += each[t];
      }
    }
    return sums;
  }

  /** W z of one cylinder (from 0), by test. */
  double[] weighted(int cylinder) {
    return weighted[cylinder];
  }

  /** Sums over a set of cylinders (from 0) of the blocks of W, by pair of tests. */
  double[][] precisionSums(int[] cylinders) {
    int size = cylinders.length;
    if (bySize != null) {
      bySize[size] = bySize[size] == null ? alone[0].sumLess(shared, size) : bySize[size];
      return bySize[size];
    }
    return size == 1
        ? alone[cylinders[0]].sumLess(shared, 1)
        : shared.takenFrom(sum(chosen(cylinders)));
  }

  private CylinderPrecision[] chosen(int[] cylinders) {
    CylinderPrecision[] chosen = new CylinderPrecision[cylinders.length];
    for (int i = 0; i < chosen.length; i++) {
      chosen[i] = alone[cylinders[i]];
    }
    return chosen;
  }

  /** The diagonal of the block of W of one cylinder (from 0), by test. */
  double[] information(int cylinder) {
    return alone[cylinder].diagonalLess(shared);
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/** Structured inverse against the dense one of Commons Math 3.6.1, to 1e-9 of its largest value. */
class ReadingPrecisionTest {
  private static final double TOLERANCE = 1e-9;

  private static HealthyModel model(int tests, int cylinders, double unread, long seed) {
    Random random = new Random(seed);
    double[] usage = new double[tests];
    double[][] residual = new double[tests][cylinders];
    double[] reading = new double[tests];
    for (int t = 0; t < tests; t++) {
      usage[t] = t + random.nextDouble();
      reading[t] = 1e-4 * (0.5 + random.nextDouble());
      for (int c = 0; c < cylinders; c++) {
        boolean read = c == 0 || random.nextDouble() >= unread;
        residual[t][c] = read ? 0.03 * random.nextGaussian() : Double.NaN;
      }
    }
    double[][] level = new double[tests][tests];
    for (int t = 0; t < tests; t++) {
      for (int u = 0; u < tests; u++) {
        level[t][u] = 6e-4 + 2e-5 * usage[t] * usage[u] + (t == u ? 2e-4 : 0);
      }
    }
    return new HealthyModel(null, usage, residual, level, 1.5e-4, reading);
  }

  private static void agrees(HealthyModel model, int[] set) {
    int[][] index = DenseCovariance.index(model.residual());
    RealMatrix covariance = MatrixUtils.createRealMatrix(DenseCovariance.covariance(model, index));
    RealMatrix inverse = new CholeskyDecomposition(covariance).getSolver().getInverse();
    double[] z = new double[covariance.getRowDimension()];
    for (int t = 0; t < index.length; t++) {
      for (int c = 0; c < index[t].length; c++) {
        if (index[t][c] >= 0) {
          z[index[t][c]] = model.residual()[t][c];
        }
      }
    }
    double[] weighted = inverse.operate(z);
    ReadingPrecision precision = ReadingPrecision.of(model, DialSites.asRead(model));
    double[] scores = precision.weightedSums(set);
    double[][] blocks = precision.precisionSums(set);
    for (int t = 0; t < index.length; t++) {
      assertEquals(sum(weighted, index[t], set), scores[t], TOLERANCE * 1e4);
      for (int u = 0; u < index.length; u++) {
        double expected = 0;
        for (int c : set) {
          if (index[t][c] >= 0) {
            expected += sum(inverse.getRow(index[t][c]), index[u], set);
          }
        }
        assertEquals(expected, blocks[t][u], TOLERANCE * 1e4);
      }
    }
  }

  private static double sum(double[] values, int[] index, int[] set) {
    double sum = 0;
    for (int c : set) {
      sum += index[c] < 0 ? 0 : values[index[c]];
    }
    return sum;
  }

  @Test
  void equalsTheDenseInverseForEveryCylinderAndForAllTogether() {
    for (int tests : new int[] {1, 2, 5, 12}) {
      HealthyModel model = model(tests, 6, 0, 7);
      for (int c = 0; c < 6; c++) {
        agrees(model, new int[] {c});
      }
      agrees(model, new int[] {1, 4});
      agrees(model, new int[] {0, 1, 2, 3, 4, 5});
    }
  }

  @Test
  void leavesOutCylindersThatWereNotRead() {
    for (long seed = 0; seed < 20; seed++) {
      HealthyModel model = model(4, 8, 0.3, seed);
      agrees(model, new int[] {0, 1, 2, 3, 4, 5, 6, 7});
      agrees(model, new int[] {2, 3});
      agrees(model, new int[] {7});
    }
  }

  @Test
  void setsOfCylindersThatAreAlikeAndOfOnesThatAreNotGoTogether() {
    HealthyModel model = model(5, 8, 0, 11);
    model.residual()[1][3] = Double.NaN;
    model.residual()[4][7] = Double.NaN;
    agrees(model, new int[] {0, 1, 2});
    agrees(model, new int[] {2, 3, 4});
    agrees(model, new int[] {0, 1, 2, 3, 4, 5, 6, 7});
  }
}

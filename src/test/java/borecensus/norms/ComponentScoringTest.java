package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class ComponentScoringTest {
  /** Yields of dyestuff by batch (Davies and Goldsmith, 1972). */
  private static final double[][] DYESTUFF = {
    {1545, 1440, 1440, 1520, 1580},
    {1540, 1555, 1490, 1560, 1495},
    {1595, 1550, 1605, 1510, 1560},
    {1445, 1440, 1595, 1465, 1545},
    {1595, 1630, 1515, 1635, 1625},
    {1520, 1455, 1450, 1480, 1445}
  };

  /** The scatter of one batch: squares of residuals plus the error of the mean. */
  private static ComponentItem item(double[] yields, double mean, double meanVariance) {
    int n = yields.length;
    double[][] scatter = new double[n][n];
    double[][] ones = new double[n][n];
    double[][] identity = new double[n][n];
    for (int i = 0; i < n; i++) {
      Arrays.fill(ones[i], 1);
      identity[i][i] = 1;
      for (int j = 0; j < n; j++) {
        scatter[i][j] = (yields[i] - mean) * (yields[j] - mean) + meanVariance;
      }
    }
    return new ComponentItem(1, 1, scatter, new double[n][n], MatrixPattern.all(ones, identity));
  }

  /**
   * {@code lmer(Yield ~ 1 + (1|Batch), REML = TRUE)}, lme4 1.1.31, R 4.2.2: batch variance
   * 1764.0499, residual variance 2451.2500. With balanced data the mean is 1527.5 whatever the
   * variances, and its variance is (batch + residual / 5) / 6.
   */
  @Test
  void variancesEqualPublishedRestrictedMaximumLikelihood() {
    double[] variances = {1000, 1000};
    ComponentScoring scoring =
        new ComponentScoring(new double[] {1000, 1000}, new double[] {1e6, 1e6});
    for (int i = 0; i < 60; i++) {
      double meanVariance = (variances[0] + variances[1] / 5) / 6;
      List<ComponentItem> items = new ArrayList<>();
      for (double[] batch : DYESTUFF) {
        items.add(item(batch, 1527.5, meanVariance));
      }
      variances = scoring.fit(items, variances, 20);
    }
    // The error of the mean is held between passes, so the passes close in linearly; a prior of
    // standard deviation 1e6 on the logarithm moves nothing in the digits compared.
    assertEquals(1764.04994926988, variances[0], 0.05);
    assertEquals(2451.25001099403, variances[1], 0.05);
  }

  @Test
  void withoutDataTheVariancesAreThePriorOnes() {
    ComponentScoring scoring = new ComponentScoring(new double[] {4, 9}, new double[] {0.5, 0.5});
    double[] fitted = scoring.fit(List.of(), new double[] {1, 1}, 20);
    assertEquals(4, fitted[0], 1e-9);
    assertEquals(9, fitted[1], 1e-9);
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Many gauges by iteration, against the same equations solved at once. */
class SparseCrossedTest {
  private static final int FAMILIES = 6;
  private static final int GAUGES = 60;
  private static final double VARIANCE = 0.0002;

  private static List<CrossedBlock> blocks() {
    Random random = new Random(5);
    List<CrossedBlock> blocks = new ArrayList<>();
    for (int e = 0; e < 500; e++) {
      int tests = 1 + random.nextInt(6);
      int site = random.nextInt(GAUGES / 3);
      int[] gauges = new int[tests];
      double[] values = new double[tests];
      double[][] precision = new double[tests][tests];
      for (int t = 0; t < tests; t++) {
        gauges[t] = 3 * site + random.nextInt(3);
        values[t] = 0.03 * random.nextGaussian();
        // Inverse of 0.0004 I + 0.0009 J.
        Arrays.fill(precision[t], -0.0009 / (0.0004 * (0.0004 + tests * 0.0009)));
        precision[t][t] += 1 / 0.0004;
      }
      blocks.add(CrossedBlock.ofGauges(random.nextInt(FAMILIES), gauges, values, precision));
    }
    return blocks;
  }

  private final GaugeSolution dense =
      GaugeSolution.of(CrossedEffects.solve(blocks(), FAMILIES, GAUGES, VARIANCE));
  private final GaugeSolution sparse = SparseCrossed.of(blocks(), FAMILIES, GAUGES).solve(VARIANCE);

  @Test
  void offsetsAndFamilyMeansAreThoseOfTheDenseSolution() {
    assertArrayEquals(dense.gaugeOffsets(), sparse.gaugeOffsets(), 1e-10);
    assertArrayEquals(dense.familyMeans(), sparse.familyMeans(), 1e-10);
    for (int f = 0; f < FAMILIES; f++) {
      assertArrayEquals(dense.coupling().of(f), sparse.coupling().of(f), 1e-6);
    }
  }

  @Test
  void theErrorOfAMixIsThatOfTheDenseSolution() {
    double[] mix = new double[GAUGES];
    Arrays.fill(mix, 1.0 / GAUGES);
    assertArrayEquals(dense.errors().times(mix), sparse.errors().times(mix), 1e-12);
  }

  @Test
  void theErrorOfOneGaugeIsAtMostAFewPerCentTooSmall() {
    for (int g = 0; g < GAUGES; g++) {
      double ratio = sparse.errors().variance(g) / dense.errors().variance(g);
      assertTrue(ratio < 1 + 1e-9 && ratio > 0.95, "gauge " + g + ": " + ratio);
    }
  }

  @Test
  void aGaugeWithoutTestsKeepsItsPriorVarianceAndNoOffset() {
    GaugeSolution solution = SparseCrossed.of(blocks(), FAMILIES, GAUGES + 1).solve(VARIANCE);
    assertEquals(0, solution.gaugeOffsets()[GAUGES]);
    assertEquals(VARIANCE, solution.errors().variance(GAUGES), 1e-18);
  }
}

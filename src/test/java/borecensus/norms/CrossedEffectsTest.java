package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The Penicillin data (Davies and Goldsmith, 1972): 24 plates crossed with 6 samples. Plates stand
 * for engines, samples for gauges. Expected values: {@code lmer(diameter ~ 1 + (1|plate) +
 * (1|sample), REML = TRUE)} of lme4 1.1.31 in R 4.2.2.
 */
class CrossedEffectsTest {
  private static final double PLATE_VARIANCE = 0.716908176782726;
  private static final double SAMPLE_VARIANCE = 3.73091758833463;
  private static final double RESIDUAL_VARIANCE = 0.302415462711965;

  /** Diameters by plate, samples A to F. */
  private static final String DIAMETERS =
      """
      27 23 26 23 23 21
      27 23 26 23 23 21
      25 21 25 24 24 20
      26 23 25 23 23 20
      25 22 26 22 23 20
      24 22 25 23 22 19
      24 20 23 21 22 19
      26 22 26 24 24 21
      24 21 24 22 22 20
      24 21 24 23 22 19
      26 23 26 24 24 21
      25 22 26 24 24 20
      26 24 26 24 25 22
      26 23 26 23 23 20
      26 23 25 24 24 22
      25 22 25 23 23 20
      25 21 24 23 23 20
      25 22 24 23 23 19
      24 21 23 21 21 19
      26 23 26 24 24 21
      25 21 24 22 22 18
      25 22 25 22 22 20
      24 21 24 22 24 19
      24 21 24 22 21 18
      """;

  /** By plate and sample. */
  static double[][] diameters() {
    return DIAMETERS
        .lines()
        .map(line -> Stream.of(line.split(" ")).mapToDouble(Double::valueOf).toArray())
        .toArray(double[][]::new);
  }

  private static List<CrossedBlock> blocks() {
    double[][] within = new double[6][6];
    for (int i = 0; i < 6; i++) {
      for (int j = 0; j < 6; j++) {
        within[i][j] = PLATE_VARIANCE + (i == j ? RESIDUAL_VARIANCE : 0);
      }
    }
    double[][] precision = Cholesky.of(within).inverse();
    List<CrossedBlock> blocks = new ArrayList<>();
    for (double[] values : diameters()) {
      blocks.add(CrossedBlock.ofGauges(0, new int[] {0, 1, 2, 3, 4, 5}, values, precision));
    }
    return blocks;
  }

  @Test
  void offsetsEqualThePublishedPredictionsOfACrossedModel() {
    CrossedEffects effects = CrossedEffects.solve(blocks(), 1, 6, SAMPLE_VARIANCE);
    double[] published = {
      2.18705796677036,
      -1.01047614920863,
      1.93789946422654,
      -0.0968949732146192,
      -0.0138421390333511,
      -3.00374416955917
    };
    // The published values come from an optimiser stopped at 1e-10 in its own parameters.
    assertArrayEquals(published, effects.gaugeOffsets(), 1e-7);
    assertEquals(22.9722222222254, effects.familyMeans()[0], 1e-7);
  }

  @Test
  void theErrorOfTheMeanEqualsThePublishedStandardError() {
    CrossedEffects effects = CrossedEffects.solve(blocks(), 1, 6, SAMPLE_VARIANCE);
    double[] q = effects.coupling()[0];
    double s = effects.familyInformation()[0];
    double variance = 1 / s;
    for (int g = 0; g < 6; g++) {
      for (int h = 0; h < 6; h++) {
        variance += q[g] * q[h] * effects.gaugeErrors()[g][h] / (s * s);
      }
    }
    assertEquals(0.808573360598088, Math.sqrt(variance), 1e-7);
  }

  @Test
  void aGaugeThatServesOneFamilyAloneIsLessCertainThanOneThatMeetsTwo() {
    double[][] one = {{1.0}};
    List<CrossedBlock> blocks = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      blocks.add(CrossedBlock.ofGauges(0, new int[] {0}, new double[] {0.1}, one));
      blocks.add(CrossedBlock.ofGauges(1, new int[] {1}, new double[] {0.1}, one));
      blocks.add(CrossedBlock.ofGauges(2, new int[] {i % 2}, new double[] {0.1}, one));
      blocks.add(CrossedBlock.ofGauges(3, new int[] {2}, new double[] {0.1}, one));
    }
    double[][] errors = CrossedEffects.solve(blocks, 4, 3, 1.0).gaugeErrors();
    // Gauge 2 is all that family 3 was tested with: nothing is learned of it.
    assertEquals(1.0, errors[2][2], 1e-9);
    assertEquals(true, errors[0][0] < 0.8);
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Sums of likelihood ratios against the same sums term by term. */
class RatioSumTest {
  private static final double[] SHIFTS = {-0.02, -0.05, -0.12, -0.3};
  private static final double[] WEIGHTS = {0.4, 0.3, 0.2, 0.1};

  /** By pattern: score; the largest term of the last is some e^130 times that of the first. */
  private static final double[] SCORES = {300, -500, -900, 100, -1500};

  private static final double INFORMATION = 8000;
  private static final double LOG_WEIGHT = Math.log(0.2);

  private static Template template(int pattern) {
    return new Template(SCORES[pattern], INFORMATION, new int[] {pattern % 2});
  }

  private static RatioSum sum(int... order) {
    RatioSum sum = new RatioSum(2, WEIGHTS);
    for (int pattern : order) {
      sum.add(LOG_WEIGHT, template(pattern), SHIFTS);
    }
    return sum;
  }

  private static double direct(int pattern) {
    double sum = 0;
    for (int i = 0; i < SHIFTS.length; i++) {
      sum += WEIGHTS[i] * Math.exp(LOG_WEIGHT + template(pattern).logRatio(SHIFTS[i]));
    }
    return sum;
  }

  @Test
  void patternsAddUpWhicheverIsTheLargestAndWheneverItComes() {
    double odd = direct(1) + direct(3);
    double whole = direct(0) + direct(2) + direct(4) + odd;
    for (int[] order : new int[][] {{0, 1, 2, 3, 4}, {4, 3, 2, 1, 0}, {2, 4, 0, 1, 3}}) {
      RatioSum sum = sum(order);
      assertEquals(Math.log(whole), sum.log(WEIGHTS), 1e-12);
      assertEquals(whole, Math.exp(sum.logUnit()) * sum.sum(WEIGHTS), 1e-11 * whole);
      double[] shares = {1 - odd / whole, odd / whole};
      assertArrayEquals(shares, sum.cylinderProbabilities(), 1e-12);
    }
  }

  @Test
  void nothingAddedIsNothing() {
    RatioSum empty = new RatioSum(2, WEIGHTS);
    assertEquals(Double.NEGATIVE_INFINITY, empty.log(WEIGHTS));
    assertEquals(0, empty.meanShift(SHIFTS));
    assertArrayEquals(new double[2], empty.cylinderProbabilities());
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Sums of likelihood ratios against the same sums term by term. */
class RatioSumTest {
  private static final double[] SHIFTS = {-0.02, -0.05, -0.12, -0.3};
  private static final double[] WEIGHTS = {0.4, 0.3, 0.2, 0.1};

  /** By pattern: score; the largest term of the last is some e^130 times that of the first. */
  private static final double[] SCORES = {300, -500, -900, 100, -1500};

  private static final double INFORMATION = 8000;
  private static final double LOG_WEIGHT = Math.log(0.2);

  private static RatioSum sum(int... order) {
    RatioTerms terms = RatioTerms.ofThread();
    terms.begin(SHIFTS);
    for (int pattern : order) {
      terms.add(LOG_WEIGHT, SCORES[pattern], INFORMATION);
      terms.endSet(new int[] {pattern % 2});
    }
    return terms.sum(WEIGHTS, 2);
  }

  private static double direct(int pattern) {
    return direct(LOG_WEIGHT, SCORES[pattern], INFORMATION);
  }

  private static double direct(double logWeight, double score, double information) {
    Template template = new Template(score, information, new int[0]);
    double sum = 0;
    for (int i = 0; i < SHIFTS.length; i++) {
      sum += WEIGHTS[i] * Math.exp(logWeight + template.logRatio(SHIFTS[i]));
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
  void anyNumberOfPatternsInASetAddsUp() {
    Random random = new Random(11);
    for (int patterns : new int[] {1, 7, 900}) {
      RatioTerms terms = RatioTerms.ofThread();
      terms.begin(SHIFTS);
      double whole = 0;
      for (int p = 0; p < patterns; p++) {
        double information = 20_000 * random.nextDouble();
        double score = 2 * Math.sqrt(information) * random.nextGaussian();
        terms.add(LOG_WEIGHT, score, information);
        whole += direct(LOG_WEIGHT, score, information);
      }
      terms.endSet(new int[] {1});
      RatioSum sum = terms.sum(WEIGHTS, 2);
      assertEquals(Math.log(whole), sum.log(WEIGHTS), 1e-12);
      assertArrayEquals(new double[] {0, 1}, sum.cylinderProbabilities(), 1e-12);
    }
  }

  @Test
  void aSizeThatNoReadingSpeaksForCountsAllTheSameWhereNothingSpeaksForAnother() {
    // Readings so high that even the smallest loss is out of the question.
    RatioTerms terms = RatioTerms.ofThread();
    terms.begin(SHIFTS);
    terms.add(0, 20_000, 200_000);
    terms.endSet(new int[] {0});
    double first = new Template(20_000, 200_000, new int[0]).logRatio(SHIFTS[0]);
    assertEquals(first + Math.log(WEIGHTS[0]), terms.sum(WEIGHTS, 1).log(WEIGHTS), 1e-9);
  }

  @Test
  void nothingAddedIsNothing() {
    RatioTerms terms = RatioTerms.ofThread();
    terms.begin(SHIFTS);
    RatioSum empty = terms.sum(WEIGHTS, 2);
    assertEquals(Double.NEGATIVE_INFINITY, empty.log(WEIGHTS));
    assertEquals(0, empty.meanShift(SHIFTS));
    assertArrayEquals(new double[2], empty.cylinderProbabilities());
  }
}

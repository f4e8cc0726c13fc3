package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

class AveragePrecisionTest {

  @Test
  void a_perfect_ranking_has_average_precision_one() {
    double[] score = {0.1, 0.9, 0.2, 0.8};
    boolean[] faulty = {false, true, false, true};

    assertEquals(1, AveragePrecision.of(score, faulty), 0);
  }

  /**
   * The worked example of the scikit-learn user guide for average_precision_score: 0.83 for labels
   * 0 0 1 1 and scores 0.1 0.4 0.35 0.8.
   */
  @Test
  void the_example_of_a_known_library_comes_out_alike() {
    double[] score = {0.1, 0.4, 0.35, 0.8};
    boolean[] faulty = {false, false, true, true};

    assertEquals((1 + 2.0 / 3) / 2, AveragePrecision.of(score, faulty), 1e-15);
  }

  @Test
  void a_ranking_by_chance_has_about_the_share_of_faulty_engines() {
    Well19937c random = new Well19937c(4);
    int n = 20_000;
    double[] score = new double[n];
    boolean[] faulty = new boolean[n];
    for (int i = 0; i < n; i++) {
      score[i] = random.nextDouble();
      faulty[i] = random.nextDouble() < 0.1;
    }

    // The standard error of the share alone is 0.002.
    assertEquals(0.1, AveragePrecision.of(score, faulty), 0.01);
  }

  @Test
  void tied_engines_are_taken_together_whatever_their_order() {
    double[] score = {1, 1, 1, 1};

    assertEquals(0.5, AveragePrecision.of(score, new boolean[] {true, true, false, false}), 0);
    assertEquals(0.5, AveragePrecision.of(score, new boolean[] {false, false, true, true}), 0);
  }

  @Test
  void nothing_faulty_has_no_average_precision() {
    assertTrue(Double.isNaN(AveragePrecision.of(new double[] {1, 2}, new boolean[2])));
  }
}

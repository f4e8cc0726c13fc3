package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class QuickExpTest {
  /**
   * Powers of e to 17 digits as tabulated (Abramowitz and Stegun, 1964, table 4.4; from memory).
   */
  @Test
  void givesTabulatedPowersOfE() {
    assertEquals(1, QuickExp.of(0));
    assertEquals(2.7182818284590452, QuickExp.of(1), 1e-15);
    assertEquals(0.36787944117144232, QuickExp.of(-1), 1e-16);
    assertEquals(22026.465794806717, QuickExp.of(10), 1e-11);
  }

  /** Both may err by a unit in the last place or two, of 2.2e-16. */
  @Test
  void agreesWithThePlatformOverTheWholeRange() {
    Random random = new Random(4);
    for (int i = 0; i < 200_000; i++) {
      double x = 1400 * random.nextDouble() - 700;
      double expected = StrictMath.exp(x);
      assertEquals(expected, QuickExp.of(x), 1e-15 * expected, () -> "exp " + x);
    }
    for (double x = -1; x < 1; x += 1e-5) {
      assertEquals(StrictMath.exp(x), QuickExp.of(x), 1e-15 * StrictMath.exp(x));
    }
  }

  @Test
  void manyAtOnceAgreeWithThePlatformWhereTheyMatter() {
    Random random = new Random(6);
    double top = 123.5;
    double[] values = new double[10_007];
    for (int i = 0; i < values.length; i++) {
      values[i] = top - 700 * random.nextDouble();
    }
    double[] results = values.clone();
    QuickExp.ofEach(results, 10_000, top);
    for (int i = 0; i < 10_000; i++) {
      double expected = StrictMath.exp(values[i] - top);
      double tolerance = values[i] - top > -80 ? 1e-12 : 1e-3;
      assertEquals(expected, results[i], tolerance * expected);
    }
    assertEquals(values[10_003], results[10_003], "past the count");
  }

  @Test
  void manyAtOnceTakeTheLargestForOneAndTheLowestForNothing() {
    double[] values = {5, 4, -1e6, Double.NEGATIVE_INFINITY};
    QuickExp.ofEach(values, 4, 5);
    assertEquals(1, values[0]);
    assertEquals(0.36787944117144232, values[1], 1e-13);
    assertEquals(0, values[2], 1e-300);
    assertEquals(0, values[3], 1e-300);
  }

  @Test
  void nothingGivesNothing() {
    assertTrue(Double.isNaN(QuickExp.of(Double.NaN)));
  }
}

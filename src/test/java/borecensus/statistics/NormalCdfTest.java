package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.special.Erf;
import org.junit.jupiter.api.Test;

class NormalCdfTest {

  @Test
  void theDistributionFunctionIsThatOfCommonsMath() {
    for (double x = -30; x < 9; x += 0.0173) {
      double expected = 0.5 * Erf.erfc(-x / Math.sqrt(2));
      // Commons Math 3.6.1. Rounding the argument costs x^2 units in the last place: 2e-13 at -30.
      assertEquals(1, NormalCdf.below(x) / expected, 1e-12, "x = " + x);
    }
  }

  /** Abramowitz and Stegun (1964), table 26.1, P(x) to fifteen places. */
  @Test
  void theDistributionFunctionIsThatOfThePublishedTable() {
    assertEquals(0.5, NormalCdf.below(0));
    assertEquals(0.841344746068543, NormalCdf.below(1), 5e-16);
    assertEquals(0.977249868051821, NormalCdf.below(2), 5e-16);
    assertEquals(0.998650101968370, NormalCdf.below(3), 5e-16);
  }

  @Test
  void theDensityIsThatOfCommonsMath() {
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    for (double x = -8; x < 8; x += 0.31) {
      assertEquals(normal.density(x), NormalCdf.density(x), 1e-15);
    }
  }

  @Test
  void missingGivesMissingAndTheEndsAreZeroAndOne() {
    assertTrue(Double.isNaN(NormalCdf.below(Double.NaN)));
    assertEquals(0, NormalCdf.below(-60));
    assertEquals(1, NormalCdf.below(60));
  }

  @Test
  void theDensityKeepsItsDigitsInTheTail() {
    // exp(-x^2 / 2) / sqrt(2 pi) of the double x in 50 digits, by decimal of Python 3.11.7.
    assertEquals(1, NormalCdf.density(6.3) / 9.6014333703123344964e-10, 1e-15);
    assertEquals(1, NormalCdf.density(-23.7) / 4.2803205646126921205e-123, 2e-15);
    assertEquals(1, NormalCdf.density(36.9) / 8.5320877556363434923e-297, 2e-15);
    assertEquals(0, NormalCdf.density(38));
  }
}

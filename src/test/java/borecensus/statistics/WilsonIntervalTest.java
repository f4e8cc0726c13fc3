package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WilsonIntervalTest {

  /**
   * Newcombe (1998), Statistics in Medicine 17:857-872, Table I, method 3 (quoted from memory, four
   * digits), and to all digits SciPy, {@code binomtest(k, n).proportion_ci(0.95, method='wilson')}.
   */
  @ParameterizedTest
  @CsvSource({
    "81, 263, 0.2553, 0.3662, 0.2552885198782742, 0.36620957698280004",
    "15, 148, 0.0624, 0.1605, 0.06238639953073629, 0.16048724172330803",
    "0, 20, 0.0000, 0.1611, 0.0, 0.16112515805281935",
    "1, 29, 0.0061, 0.1718, 0.006113214292762667, 0.17175521879320282",
    "29, 29, 0.8830, 1.0000, 0.8830302015002592, 1.0"
  })
  void theLimitsAreThePublishedOnes(
      long k, long n, double printedLower, double printedUpper, double lower, double upper) {
    WilsonInterval interval = WilsonInterval.of(k, n, WilsonInterval.Z_95);
    assertEquals(printedLower, interval.lower(), 5e-5);
    assertEquals(printedUpper, interval.upper(), 5e-5);
    assertEquals(lower, interval.lower(), 1e-12);
    assertEquals(upper, interval.upper(), 1e-12);
  }

  @Test
  void withoutCasesThereAreNoLimits() {
    assertTrue(Double.isNaN(WilsonInterval.of(0, 0, WilsonInterval.Z_95).lower()));
  }

  @Test
  void moreHitsThanCasesAreImpossible() {
    assertThrows(IllegalArgumentException.class, () -> WilsonInterval.of(3, 2, 1.96));
  }
}

package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SmallSampleTest {
  /**
   * Wilks (1941); published anchors 59, 93, 29, 299, 46 and 473 (ISO 16269-6; NIST e-Handbook
   * 7.2.6.4); the others computed with pbinom of R 4.2.2. Whole numbers: no tolerance.
   */
  @ParameterizedTest
  @CsvSource({
    "0.5, 0.9, 4, 7, 9, 7, 12", "0.75, 0.9, 9, 15, 20, 15, 25",
    "0.9, 0.9, 22, 38, 52, 38, 65", "0.95, 0.9, 45, 77, 105, 77, 132",
    "0.99, 0.9, 230, 388, 531, 388, 667", "0.5, 0.95, 5, 8, 11, 8, 13",
    "0.75, 0.95, 11, 18, 23, 18, 29", "0.9, 0.95, 29, 46, 61, 46, 76",
    "0.95, 0.95, 59, 93, 124, 93, 153", "0.99, 0.95, 299, 473, 628, 473, 773",
    "0.5, 0.99, 7, 11, 14, 11, 17", "0.75, 0.99, 17, 24, 31, 24, 37",
    "0.9, 0.99, 44, 64, 81, 64, 97", "0.95, 0.99, 90, 130, 165, 130, 198",
    "0.99, 0.99, 459, 662, 838, 662, 1001"
  })
  void sampleSizesAreThoseOfWilks(
      double proportion, double confidence, int one1, int one2, int one3, int two1, int two2) {
    assertEquals(one1, SmallSample.forOneBound(proportion, confidence, 1));
    assertEquals(one2, SmallSample.forOneBound(proportion, confidence, 2));
    assertEquals(one3, SmallSample.forOneBound(proportion, confidence, 3));
    assertEquals(two1, SmallSample.forTwoBounds(proportion, confidence, 1));
    assertEquals(two2, SmallSample.forTwoBounds(proportion, confidence, 2));
  }

  /**
   * Hahn and Meeker (1991), computed with R 4.2.2: smallest u with pbinom(u - 1, n, p) at least
   * conf.
   */
  @ParameterizedTest
  @CsvSource({
    "30, 0.9, 0.9, 30", "46, 0.9, 0.9, 45", "59, 0.9, 0.9, 57", "60, 0.9, 0.9, 58",
    "93, 0.9, 0.9, 88", "100, 0.9, 0.9, 95", "200, 0.9, 0.9, 186", "500, 0.9, 0.9, 460",
    "46, 0.95, 0.9, 46", "100, 0.95, 0.9, 99", "200, 0.95, 0.9, 195", "500, 0.95, 0.9, 482",
    "30, 0.9, 0.95, 30", "59, 0.9, 0.95, 58", "93, 0.9, 0.95, 89", "500, 0.9, 0.95, 462",
    "59, 0.95, 0.95, 59", "93, 0.95, 0.95, 92", "200, 0.95, 0.95, 196", "500, 0.95, 0.95, 484"
  })
  void theBoundIsTheOrderStatisticOfTheTables(
      int n, double proportion, double confidence, int rank) {
    assertEquals(OptionalInt.of(rank), SmallSample.upperBoundRank(n, proportion, confidence));
  }

  @ParameterizedTest
  @CsvSource({"30, 0.95, 0.9", "30, 0.95, 0.95", "46, 0.95, 0.95", "58, 0.95, 0.95"})
  void aSampleThatIsTooSmallHasNoBound(int n, double proportion, double confidence) {
    assertTrue(SmallSample.upperBoundRank(n, proportion, confidence).isEmpty());
  }

  @Test
  void impossibleRequestsAreRefused() {
    assertEquals(
        "proportion must be between 0 and 1, both excluded, but is 1.0",
        assertThrows(IllegalArgumentException.class, () -> SmallSample.forOneBound(1.0, 0.95, 1))
            .getMessage());
    assertEquals(
        "confidence must be between 0 and 1, both excluded, but is NaN",
        assertThrows(
                IllegalArgumentException.class, () -> SmallSample.forTwoBounds(0.95, Double.NaN, 1))
            .getMessage());
    assertEquals(
        "the rank of a bound counts from 1, but is 0",
        assertThrows(IllegalArgumentException.class, () -> SmallSample.forOneBound(0.95, 0.95, 0))
            .getMessage());
    assertEquals(
        "a bound needs at least 1 value, but n is 0",
        assertThrows(
                IllegalArgumentException.class, () -> SmallSample.upperBoundRank(0, 0.95, 0.95))
            .getMessage());
  }
}

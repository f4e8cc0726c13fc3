package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class PrintedNormTest {
  private static NormPoint at(double usage, double median) {
    return new NormPoint(usage, median, median - 100, median + 100, 4, 8);
  }

  private static final PrintedNorm NORM =
      new PrintedNorm(
          UsageMeter.KM,
          30,
          List.of(at(100_000, 1200), at(200_000, 1160), at(300_000, 1100)),
          List.of(1.01, 0.99));

  @Test
  void betweenGridPointsTheNormRunsStraight() {
    assertEquals(1180, NORM.at(150_000).medianKpa(), 1e-9);
    assertEquals(1045, NORM.at(225_000).p05Kpa(), 1e-9);
  }

  @Test
  void beyondTheGridItsEndHolds() {
    assertEquals(1200, NORM.at(0).medianKpa());
    assertEquals(1100, NORM.at(900_000).medianKpa());
  }

  @Test
  void anUnknownUsageIsTakenAsTheMiddleOfTheGrid() {
    assertEquals(1160, NORM.at(Double.NaN).medianKpa());
  }

  @Test
  void aCylinderWhosePositionIsNotKnownIsTakenAsTheMean() {
    assertEquals(0.99, NORM.position(2));
    assertEquals(1, NORM.position(3));
  }
}

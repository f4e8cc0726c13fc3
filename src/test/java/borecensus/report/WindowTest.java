package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class WindowTest {
  private static final double NAN = Double.NaN;

  @Test
  void aNarrowHistoryIsShownInItsMiddleAndAWideOneAsItIs() {
    assertEquals(new Window(80, 180), Window.around(new double[] {120, 140}, 100));
    assertEquals(new Window(20, 300), Window.around(new double[] {300, NAN, 20}, 100));
  }

  @Test
  void nothingIsShownBelowZeroAndSomethingIsAlwaysShown() {
    assertEquals(new Window(0, 100), Window.around(new double[] {10}, 100));
    assertEquals(new Window(0, 1), Window.around(new double[] {}, NAN));
    assertEquals(new Window(0, 100), Window.around(new double[] {NAN}, 100));
  }

  @Test
  void pointsReachFromEndToEnd() {
    assertArrayEquals(new double[] {10, 20, 30}, new Window(10, 30).points(3));
  }
}

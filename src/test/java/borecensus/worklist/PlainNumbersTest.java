package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class PlainNumbersTest {

  private static String platform(int decimals, double value) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }

  @Property
  void aFixedNumberOfDecimalsIsWhatThePlatformFormats(
      @ForAll @IntRange(max = 4) int decimals,
      @ForAll @DoubleRange(min = -1e9, max = 1e9) double value) {
    assertEquals(platform(decimals, value), PlainNumbers.fixed(decimals, value));
  }

  @Test
  void halvesAreRoundedAsThePlatformRoundsThem() {
    for (int thousandths = -3000; thousandths < 3000; thousandths++) {
      double value = thousandths / 1000.0;
      for (double near : new double[] {value, Math.nextUp(value), Math.nextDown(value)}) {
        for (int decimals = 0; decimals <= 4; decimals++) {
          assertEquals(platform(decimals, near), PlainNumbers.fixed(decimals, near));
        }
      }
    }
  }

  @Test
  void whatIsNoPlainNumberIsLeftToThePlatform() {
    for (double value :
        new double[] {Double.NaN, Double.POSITIVE_INFINITY, -0.0, 0, 1e12, Double.MIN_VALUE}) {
      assertEquals(platform(1, value), PlainNumbers.fixed(1, value));
    }
  }
}

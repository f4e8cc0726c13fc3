package borecensus.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class PathTextTest {

  @Property
  void oneDecimalIsWhatThePlatformFormats(
      @ForAll @DoubleRange(min = -1e7, max = 1e7) double value) {
    assertEquals(String.format(Locale.ROOT, "%.1f", value), PathText.oneDecimal(value));
  }

  @Test
  void halvesAreRoundedAsThePlatformRoundsThem() {
    for (int hundredths = -300; hundredths < 300; hundredths++) {
      double value = hundredths / 100.0;
      for (double near : new double[] {value, Math.nextUp(value), Math.nextDown(value)}) {
        assertEquals(String.format(Locale.ROOT, "%.1f", near), PathText.oneDecimal(near));
      }
    }
  }

  @Property
  void aTenthHasNoIdleZero(@ForAll @DoubleRange(min = -1e7, max = 1e7) double value) {
    String plain =
        BigDecimal.valueOf(Math.round(value * 10), 1).stripTrailingZeros().toPlainString();
    assertEquals(plain, PathText.number(value));
  }
}

package borecensus.published;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.core.io.NumberOutput;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** The library's own shortest decimals (Giulietti's Schubfach) beside ours. */
class RealTextTest {
  private static void assertShortest(double value) {
    assertEquals(NumberOutput.toString(value, true), RealText.of(value));
  }

  @Test
  void everyReadingOfADialIsWrittenAsTheLibraryWritesIt() {
    for (int tenths = 0; tenths < 40_000; tenths++) {
      assertShortest(tenths / 10.0);
      assertShortest(Math.nextUp(tenths / 10.0));
      assertShortest(-tenths / 10.0);
    }
  }

  @Test
  void theEndsOfTheScaleAreWrittenAsTheLibraryWritesThem() {
    for (double value :
        new double[] {
          0.0,
          -0.0,
          Double.MIN_VALUE,
          Double.MAX_VALUE,
          0.05,
          0.1,
          9_999_999,
          9_999_999.9,
          9_999_999.95,
          Math.nextDown(1e7),
          1e7,
          1e15
        }) {
      assertShortest(value);
    }
  }

  @Property
  void everyTenthIsWrittenAsTheLibraryWritesIt(@ForAll @IntRange(max = 200_000_000) int tenths) {
    assertShortest(tenths / 10.0);
  }

  @Property
  void everyNumberIsWrittenAsTheLibraryWritesIt(
      @ForAll @DoubleRange(min = -1e9, max = 1e9) double value) {
    assertShortest(value);
  }
}

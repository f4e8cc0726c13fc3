package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.intake.SheetColumn;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class UsageOrderTest {

  @Test
  void oneTypoTooHighCostsOneTest() {
    assertArrayEquals(
        new boolean[] {true, false, true, true},
        UsageOrder.rising(new double[] {10_000, 900_000, 20_000, 30_000}));
  }

  @Test
  void oneTypoTooLowCostsOneTest() {
    assertArrayEquals(
        new boolean[] {true, true, false, true},
        UsageOrder.rising(new double[] {10_000, 20_000, 2_500, 30_000}));
  }

  @Test
  void aTypoAtEitherEndCostsOneTest() {
    assertArrayEquals(
        new boolean[] {false, true, true},
        UsageOrder.rising(new double[] {900_000, 20_000, 30_000}));
    assertArrayEquals(
        new boolean[] {true, true, false}, UsageOrder.rising(new double[] {20_000, 30_000, 3_100}));
  }

  @Test
  void aDigitTooManyInTheMiddleOfThreeCostsOneTest() {
    assertArrayEquals(
        new boolean[] {true, false, true},
        UsageOrder.rising(new double[] {100_000, 1_100_000, 120_000}));
  }

  @Test
  void roundingOfMilesIsNoFall() {
    assertArrayEquals(
        new boolean[] {true, true}, UsageOrder.rising(new double[] {100_000, 99_998.4}));
    assertArrayEquals(
        new boolean[] {true, false}, UsageOrder.rising(new double[] {100_000, 99_997}));
  }

  @Test
  void equalValuesRise() {
    assertArrayEquals(new boolean[] {true, true, true}, UsageOrder.rising(new double[] {5, 5, 5}));
  }

  @Test
  void whatIsNotStatedIsInOrder() {
    assertArrayEquals(
        new boolean[] {true, true, false, true},
        UsageOrder.rising(new double[] {Double.NaN, 200, 100, Double.NaN}));
    assertArrayEquals(
        new boolean[] {true, true}, UsageOrder.rising(new double[] {Double.NaN, Double.NaN}));
    assertEquals(0, UsageOrder.rising(new double[0]).length);
  }

  @Test
  void ofTwoThatContradictEachOtherTheFirstStands() {
    assertArrayEquals(
        new boolean[] {true, false}, UsageOrder.rising(new double[] {200_000, 100_000}));
  }

  @Test
  void theCounterThatFallsIsNamed() {
    assertEquals(
        List.of(Optional.empty(), Optional.of(SheetColumn.ENGINE_HOURS), Optional.empty()),
        UsageOrder.fallen(
            List.of(
                sheet("A", "2025-01-01", 1000).hours(500).row(),
                sheet("B", "2025-02-01", 2000).hours(50).row(),
                sheet("C", "2025-03-01", 3000).hours(600).row())));
    assertEquals(
        Optional.of(SheetColumn.ODOMETER_KM),
        UsageOrder.fallen(
                List.of(
                    sheet("A", "2025-01-01", 1000).hours(500).row(),
                    sheet("B", "2025-02-01", 100).hours(50).row()))
            .get(1));
  }

  @Property(tries = 500)
  void aLongestRunThatNeverFallsStands(
      @ForAll @Size(max = 9) List<@IntRange(max = 12) Integer> tens) {
    // Tens, so that the tolerance of 2 tells nothing.
    double[] values = tens.stream().mapToDouble(value -> 10.0 * value).toArray();
    boolean[] inOrder = UsageOrder.rising(values);
    int kept = 0;
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < values.length; i++) {
      if (inOrder[i]) {
        assertTrue(values[i] >= last);
        last = values[i];
        kept++;
      }
    }
    assertEquals(longestByTrialOfAll(values), kept);
  }

  private static int longestByTrialOfAll(double[] values) {
    int longest = 0;
    for (int subset = 0; subset < 1 << values.length; subset++) {
      double last = Double.NEGATIVE_INFINITY;
      boolean rises = true;
      for (int i = 0; i < values.length; i++) {
        if ((subset >> i & 1) == 1) {
          rises &= values[i] >= last;
          last = values[i];
        }
      }
      longest = rises ? Math.max(longest, Integer.bitCount(subset)) : longest;
    }
    return longest;
  }
}

package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class BenjaminiHochbergTest {
  /** Benjamini and Hochberg (1995), JRSS-B 57, section 4.1: 15 ordered p-values. */
  private static final double[] EXAMPLE = {
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719,
    0.6528, 0.759, 1
  };

  /** R 4.2.2 (Debian r-base-core 4.2.2.20221110-2): p.adjust(p, "BH"). */
  private static final double[] ADJUSTED = {
    0.0015,
    0.003,
    0.0095,
    0.035625,
    0.0603,
    0.0638571428571429,
    0.0638571428571429,
    0.0645,
    0.0765,
    0.486,
    0.581181818181818,
    0.714875,
    0.753230769230769,
    0.813214285714286,
    1
  };

  /** Expected values are printed to 15 digits. */
  private static final double PRINTED = 1e-14;

  @Test
  void theExampleOf1995IsAdjustedAsInR() {
    assertArrayEquals(ADJUSTED, BenjaminiHochberg.adjust(EXAMPLE), PRINTED);
  }

  @Test
  void fourOfFifteenAreRejectedAtFivePerCentAsPublished() {
    double[] adjusted = BenjaminiHochberg.adjust(EXAMPLE);

    assertEquals(4, Arrays.stream(adjusted).filter(q -> q <= 0.05).count());
  }

  @Property(seed = "1", tries = 200)
  void adjustedValuesStayWithTheirTests(@ForAll long seed) {
    double[] together = Shuffled.of(EXAMPLE, seed);

    // The same seed moves the expected values alike.
    assertArrayEquals(Shuffled.of(ADJUSTED, seed), BenjaminiHochberg.adjust(together), PRINTED);
  }

  @Property(seed = "1")
  void adjustingNeverLowersAPValueNorChangesTheOrder(
      @ForAll @Size(max = 30) List<@DoubleRange(min = 0, max = 1) @Scale(6) Double> values) {
    double[] p = values.stream().mapToDouble(Double::doubleValue).toArray();
    double[] adjusted = BenjaminiHochberg.adjust(p);
    for (int i = 0; i < p.length; i++) {
      assertTrue(adjusted[i] >= p[i] && adjusted[i] <= 1);
      for (int j = 0; j < p.length; j++) {
        assertTrue(p[i] > p[j] || adjusted[i] <= adjusted[j]);
      }
    }
  }

  @Test
  void aTestThatWasNotMadeDoesNotCount() {
    double[] adjusted = BenjaminiHochberg.adjust(new double[] {0.01, Double.NaN, 0.04});

    assertEquals(0.02, adjusted[0], PRINTED);
    assertTrue(Double.isNaN(adjusted[1]));
    assertEquals(0.04, adjusted[2], PRINTED);
  }

  @Test
  void nothingTestedGivesNothing() {
    assertEquals(0, BenjaminiHochberg.adjust(new double[0]).length);
  }

  @Test
  void aNumberThatIsNoProbabilityIsRefused() {
    var refusal =
        assertThrows(
            IllegalArgumentException.class,
            () -> BenjaminiHochberg.adjust(new double[] {0.5, 1.2}));

    assertEquals("a p-value must be from 0 to 1, but one is 1.2", refusal.getMessage());
  }
}

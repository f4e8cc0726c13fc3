package borecensus.statistics;

import static borecensus.ReferenceTable.number;
import static borecensus.ReferenceTable.numbers;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantilesTest {
  static List<NamedCsvRecord> samples() {
    return ReferenceTable.resource(QuantilesTest.class, "robust-samples.csv");
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theMedianAgreesWithR(NamedCsvRecord row) {
    // At most one addition and one halving: exact but for the last digit.
    assertEquals(number(row, "median"), Quantiles.median(numbers(row, "values")), 1e-13);
  }

  /** R 4.2.2: quantile(c(1, 2, 4, 8, 16), p, type = 7); by hand: h = 1 + 4 p. */
  @ParameterizedTest
  @CsvSource({"0, 1", "0.1, 1.4", "0.25, 2", "0.5, 4", "0.6, 5.6", "0.9, 12.8", "1, 16"})
  void quantilesAreOfTypeSeven(double p, double expected) {
    assertEquals(expected, Quantiles.quantile(new double[] {16, 1, 8, 2, 4}, p), 1e-14);
  }

  @Test
  void theInputIsLeftAsItWas() {
    double[] x = {3, 1, 2};

    Quantiles.median(x);

    assertArrayEquals(new double[] {3, 1, 2}, x);
  }

  @Property(seed = "1")
  void quantilesDoNotDependOnTheOrderOfTheValues(
      @ForAll @Size(min = 1, max = 40) double[] x,
      @ForAll @DoubleRange(min = 0, max = 1) double p,
      @ForAll long seed) {
    assertEquals(Quantiles.quantile(x, p), Quantiles.quantile(Shuffled.of(x, seed), p));
  }

  @Property(seed = "1")
  void quantilesRiseWithTheirProbabilityAndStayWithinTheSample(
      @ForAll @Size(min = 1, max = 40) List<@DoubleRange(min = -1e6, max = 1e6) Double> values,
      @ForAll @DoubleRange(min = 0, max = 1) double p,
      @ForAll @DoubleRange(min = 0, max = 1) double q) {
    double[] x = values.stream().mapToDouble(Double::doubleValue).toArray();
    double lower = Quantiles.quantile(x, Math.min(p, q));
    double upper = Quantiles.quantile(x, Math.max(p, q));

    // Interpolation rounds to one unit in the last place of 1e6.
    assertTrue(lower <= upper + 1e-9);
    assertTrue(Quantiles.quantile(x, 0) <= lower && upper <= Quantiles.quantile(x, 1));
  }

  @Test
  void emptyOrAbsentInputHasNoQuantile() {
    assertTrue(Double.isNaN(Quantiles.median(new double[0])));
    assertTrue(Double.isNaN(Quantiles.quantile(new double[] {1, Double.NaN, 3}, 0.0)));
  }

  @Test
  void aSingleValueIsEveryQuantile() {
    assertEquals(7.0, Quantiles.quantile(new double[] {7}, 0.0));
    assertEquals(7.0, Quantiles.quantile(new double[] {7}, 0.99));
  }

  @Test
  void infiniteValuesAreOrderedLikeOthers() {
    double infinite = Double.POSITIVE_INFINITY;

    assertEquals(infinite, Quantiles.median(new double[] {1, infinite, infinite, infinite}));
    assertEquals(1.0, Quantiles.quantile(new double[] {1, infinite}, 0.0));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.01, 1.01, Double.NaN})
  void aProbabilityOutsideZeroToOneIsRefused(double p) {
    var refusal =
        assertThrows(
            IllegalArgumentException.class, () -> Quantiles.quantile(new double[] {1, 2}, p));

    assertEquals("a quantile needs p from 0 to 1, but p is " + p, refusal.getMessage());
  }
}

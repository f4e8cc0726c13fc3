package borecensus.statistics;

import static borecensus.ReferenceTable.number;
import static borecensus.ReferenceTable.numbers;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class TheilSenTest {
  private static final double Z95 =
      new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.975);

  static List<NamedCsvRecord> series() {
    return ReferenceTable.resource(TheilSenTest.class, "trend-samples.csv");
  }

  @ParameterizedTest
  @MethodSource("series")
  void slopeAndInterceptAgreeWithR(NamedCsvRecord row) {
    double[] x = numbers(row, "x");
    double[] y = numbers(row, "y");
    TheilSenFit fit = TheilSen.fit(x, y);

    // Quotients of decimal differences: rounded at 1e-13; the intercept multiplies that by 2000
    // years.
    assertEquals(number(row, "slope"), fit.slope(), 1e-12);
    assertEquals(number(row, "intercept"), fit.intercept(), 1e-8);
    assertEquals((int) number(row, "n"), fit.points());
    assertTrue(fit.slopeStandardError() >= 0);
  }

  @ParameterizedTest
  @MethodSource("series")
  void theIntervalAgreesWithR(NamedCsvRecord row) {
    var interval = TheilSen.slopeInterval(numbers(row, "x"), numbers(row, "y"), Z95);

    // Interpolated between ranks at 1e-9 of a rank (the quantile of the normal).
    assertEquals(number(row, "low"), interval.low(), 1e-9);
    assertEquals(number(row, "high"), interval.high(), 1e-9);
  }

  @ParameterizedTest
  @MethodSource("series")
  void mannKendallAgreesWithR(NamedCsvRecord row) {
    MannKendall test = MannKendall.test(numbers(row, "x"), numbers(row, "y"));

    assertEquals((long) number(row, "s"), test.s());
    // Printed to 15 digits.
    assertEquals(number(row, "variance"), test.variance(), 1e-9);
    assertEquals(number(row, "z"), test.z(), 1e-12);
    assertEquals((int) number(row, "n"), test.points());
  }

  @Property(seed = "1", tries = 200)
  void pointsOnALineGiveTheLine(
      @ForAll @DoubleRange(min = -5, max = 5) double slope,
      @ForAll @DoubleRange(min = -100, max = 100) double intercept) {
    double[] x = {0, 1, 3, 7, 12};
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      y[i] = intercept + slope * x[i];
    }
    TheilSenFit fit = TheilSen.fit(x, y);

    assertEquals(slope, fit.slope(), 1e-12);
    assertEquals(intercept, fit.intercept(), 1e-11);
    assertEquals(0.0, fit.slopeStandardError(), 1e-12);
  }

  @Property(seed = "1", tries = 200)
  void theOrderOfThePointsDoesNotMatter(@ForAll long seed) {
    double[] x = {10, 20, 35, 35, 60, 80};
    double[] y = {99, 98, 98, 96, 91, 95};

    // The same seed moves both coordinates alike.
    double[] movedX = Shuffled.of(x, seed);
    double[] movedY = Shuffled.of(y, seed);

    assertEquals(TheilSen.fit(x, y), TheilSen.fit(movedX, movedY));
    assertEquals(MannKendall.test(x, y), MannKendall.test(movedX, movedY));
  }

  @Test
  void oneWildPointLeavesTheSlopeAlone() {
    double[] x = {0, 1, 2, 3, 4, 5, 6};
    double[] y = {100, 99, 98, 97, 30, 95, 94};

    assertEquals(-1.0, TheilSen.fit(x, y).slope(), 1e-12);
  }

  /** With normal noise about a line, 5 and more points: see the note at the constant. */
  @Test
  void theStandardErrorErrsTowardsCaution() {
    for (int points : new int[] {5, 8, 20}) {
      Random random = new Random(20260101);
      int trials = 4000;
      double squares = 0;
      double errors = 0;
      for (int trial = 0; trial < trials; trial++) {
        TheilSenFit fit = fitOfNoise(points, random);
        squares += fit.slope() * fit.slope();
        errors += fit.slopeStandardError();
      }
      double ratio = errors / trials / Math.sqrt(squares / trials);

      // Two per cent of sampling error below 1, the measured excess above.
      assertTrue(ratio > 0.98 && ratio < 1.6, () -> points + " points: ratio " + ratio);
    }
  }

  @Test
  void tooFewPointsGiveNoErrorAndOnePointNoSlope() {
    TheilSenFit two = TheilSen.fit(new double[] {1, 3}, new double[] {10, 14});
    TheilSenFit one = TheilSen.fit(new double[] {1}, new double[] {10});
    TheilSenFit none = TheilSen.fit(new double[0], new double[0]);

    assertEquals(2.0, two.slope());
    assertEquals(8.0, two.intercept());
    assertTrue(Double.isNaN(two.slopeStandardError()));
    assertTrue(Double.isNaN(one.slope()) && Double.isNaN(one.intercept()));
    assertEquals(1, one.points());
    assertTrue(Double.isNaN(none.slope()));
    assertTrue(Double.isNaN(MannKendall.test(new double[] {1}, new double[] {10}).z()));
  }

  @Test
  void pointsAtOnePlaceHaveNoSlope() {
    TheilSenFit fit = TheilSen.fit(new double[] {2, 2, 2, 2}, new double[] {1, 2, 3, 4});

    assertTrue(Double.isNaN(fit.slope()));
    assertTrue(Double.isNaN(fit.slopeStandardError()));
  }

  @Test
  void levelPointsHaveNoTrend() {
    double[] x = {1, 2, 3, 4, 5};
    double[] level = {7, 7, 7, 7, 7};

    assertEquals(0.0, TheilSen.fit(x, level).slope());
    assertEquals(0.0, MannKendall.test(x, level).z());
    assertEquals(0.0, MannKendall.test(x, level).variance());
  }

  @Test
  void unequalLengthsAreRefused() {
    var refusal =
        assertThrows(
            IllegalArgumentException.class,
            () -> TheilSen.fit(new double[] {1, 2}, new double[] {1}));

    assertEquals("x and y must have the same length, but have 2 and 1", refusal.getMessage());
  }

  @Test
  void anAbsentNumberIsRefused() {
    var refusal =
        assertThrows(
            IllegalArgumentException.class,
            () -> MannKendall.test(new double[] {1, 2}, new double[] {1, Double.NaN}));

    assertEquals("every point must be finite, but point 1 is (2.0, NaN)", refusal.getMessage());
  }

  @Test
  void moreThanTheMostPointsAreRefused() {
    double[] many = new double[TheilSen.MAX_POINTS + 1];

    assertEquals(
        "at most 4096 points are accepted, but there are 4097",
        assertThrows(IllegalArgumentException.class, () -> TheilSen.fit(many, many)).getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> TheilSen.slopeInterval(new double[] {1, 2}, new double[] {1, 2}, Double.NaN));
  }

  private static TheilSenFit fitOfNoise(int points, Random random) {
    double[] x = new double[points];
    double[] y = new double[points];
    for (int i = 0; i < points; i++) {
      x[i] = i;
      y[i] = random.nextGaussian();
    }
    return TheilSen.fit(x, y);
  }
}

package borecensus.physics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReferencePressureTest {
  private static final double METRES_PER_FOOT = 0.3048;
  private static final double KPA_PER_PSI = 6.894757293168361;

  /** Relative rounding of a handful of multiplications. */
  private static final double ROUNDING = 1e-12;

  @ParameterizedTest
  @CsvSource({"1000, 0.964", "6000, 0.801"})
  void readingsFallWithAmbientPressure(double feet, double factor) {
    // Standard atmosphere pressure ratios, printed to three decimals.
    assertEquals(factor, pressureFactor(feet), 0.0005);
  }

  /**
   * A motorcycle service table of altitude factors. Most of its entries are standard-atmosphere
   * density, some of them read off a curve: they lie within 0.006 of density, and above 2500 ft all
   * lie more than 0.015 above pressure, which is what a gauge follows.
   */
  @ParameterizedTest
  @CsvSource({
    "500, 0.987", "1000, 0.971", "1500, 0.960", "2000, 0.943", "2500, 0.933", "3000, 0.915",
    "3500, 0.907", "4000, 0.888", "4500, 0.880", "5000, 0.862", "5500, 0.853", "6000, 0.836"
  })
  void thePrintedServiceTableFollowsDensityAndNotPressure(double feet, double printed) {
    assertEquals(densityFactor(feet), printed, 0.006);
    assertTrue(Math.abs(printed - densityFactor(feet)) < Math.abs(printed - pressureFactor(feet)));
  }

  @ParameterizedTest
  @CsvSource({"1000, 0.971", "6000, 0.836"})
  void theServiceTableMeetsDensityExactlyAtItsQuotedPoints(double feet, double printed) {
    assertEquals(printed, densityFactor(feet), 0.0005);
  }

  /**
   * A two-stroke diesel manual: 515 psi at 500 ft and 380 psi at 10 000 ft, running at 600 rpm,
   * where a blower and heat make the engine follow density (0.749) more than pressure (0.700).
   */
  @Test
  void aRunningBlownDieselLiesBetweenPressureAndDensity() {
    double printed = 380.0 / 515.0;
    double byPressure = pressureFactor(10000) / pressureFactor(500);
    double byDensity = densityFactor(10000) / densityFactor(500);

    assertEquals(0.738, printed, 0.0005);
    assertEquals(0.700, byPressure, 0.0005);
    assertEquals(0.749, byDensity, 0.0015);
    assertTrue(byPressure < printed && printed < byDensity);
  }

  @Test
  void aHundredAndTwentyPsiAtSeaLevelReadsAHundredAtFiveThousandFeet() {
    double ambientHpa = StandardAtmosphere.pressureHpa(5000 * METRES_PER_FOOT);
    double readingKpa = ReferencePressure.fromReferenceKpa(120 * KPA_PER_PSI, ambientHpa);

    // A letter to a magazine says "about 100"; by pressure it is 99.85.
    assertEquals(99.85, readingKpa / KPA_PER_PSI, 0.005);
  }

  @Test
  void theTextbookCylinderReachesAHundredAndEightySevenPsi() {
    // Worked example of an encyclopedia: effective ratio 7.5, exponent 1.3, 14.7 psi ambient:
    // 201.8 psi absolute, 187.1 gauge, printed to one decimal.
    double ambientHpa = 14.7 * KPA_PER_PSI * 10;
    double gaugePsi = ReferencePressure.cylinderPressureKpa(7.5, 1.3, ambientHpa) / KPA_PER_PSI;

    assertEquals(187.1, gaugePsi, 0.05);
    assertEquals(201.8, gaugePsi + 14.7, 0.05);
  }

  @Property(seed = "1")
  void theFactorDependsNeitherOnCompressionRatioNorOnExponent(
      @ForAll @DoubleRange(min = 5, max = 23) double ratio,
      @ForAll @DoubleRange(min = 1.1, max = 1.4) double exponent,
      @ForAll @DoubleRange(min = 600, max = 1050) double ambientHpa) {
    double there = ReferencePressure.cylinderPressureKpa(ratio, exponent, ambientHpa);
    double atReference = ReferencePressure.cylinderPressureKpa(ratio, exponent, 1013.25);

    assertEquals(
        atReference, ReferencePressure.toReferenceKpa(there, ambientHpa), ROUNDING * atReference);
  }

  @Property(seed = "1")
  void normalisationIsLinear(
      @ForAll @DoubleRange(min = 0, max = 4000) double aKpa,
      @ForAll @DoubleRange(min = 0, max = 4000) double bKpa,
      @ForAll @DoubleRange(min = 0, max = 3) double weight,
      @ForAll @DoubleRange(min = 300, max = 1100) double ambientHpa) {
    double together = ReferencePressure.toReferenceKpa(aKpa + weight * bKpa, ambientHpa);
    double apart =
        ReferencePressure.toReferenceKpa(aKpa, ambientHpa)
            + weight * ReferencePressure.toReferenceKpa(bKpa, ambientHpa);

    assertEquals(apart, together, ROUNDING * Math.max(1, apart));
  }

  @Property(seed = "1")
  void ratiosBetweenCylindersDoNotChangeWithAltitude(
      @ForAll @DoubleRange(min = 0, max = 4000) double lowestKpa,
      @ForAll @DoubleRange(min = 100, max = 4000) double highestKpa,
      @ForAll @DoubleRange(min = -400, max = 5000) double heightM) {
    double ambientHpa = StandardAtmosphere.pressureHpa(heightM);
    double ratio =
        ReferencePressure.toReferenceKpa(lowestKpa, ambientHpa)
            / ReferencePressure.toReferenceKpa(highestKpa, ambientHpa);

    assertEquals(lowestKpa / highestKpa, ratio, ROUNDING * 40);
  }

  @Property(seed = "1")
  void fromReferenceUndoesToReference(
      @ForAll @DoubleRange(min = 0, max = 4000) double gaugeKpa,
      @ForAll @DoubleRange(min = 300, max = 1100) double ambientHpa) {
    double back =
        ReferencePressure.fromReferenceKpa(
            ReferencePressure.toReferenceKpa(gaugeKpa, ambientHpa), ambientHpa);

    assertEquals(gaugeKpa, back, ROUNDING * Math.max(1, gaugeKpa));
  }

  @Test
  void aReadingTakenAtReferenceConditionsStaysAsItIs() {
    assertEquals(1234.5, ReferencePressure.toReferenceKpa(1234.5, 1013.25));
    assertEquals(0.0, ReferencePressure.toReferenceKpa(0.0, 700));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -5, Double.POSITIVE_INFINITY})
  void anImpossibleAmbientPressureIsRefused(double ambientHpa) {
    var refusal =
        assertThrows(
            IllegalArgumentException.class,
            () -> ReferencePressure.toReferenceKpa(1000, ambientHpa));

    assertEquals(
        "ambient pressure must be a finite number above 0 hPa, but is " + ambientHpa,
        refusal.getMessage());
    assertThrows(
        IllegalArgumentException.class, () -> ReferencePressure.fromReferenceKpa(1000, ambientHpa));
    assertThrows(
        IllegalArgumentException.class,
        () -> ReferencePressure.cylinderPressureKpa(9, 1.3, ambientHpa));
  }

  @Test
  void anImpossibleEngineIsRefused() {
    assertEquals(
        "compression ratio must be at least 1, but is 0.9",
        assertThrows(
                IllegalArgumentException.class,
                () -> ReferencePressure.cylinderPressureKpa(0.9, 1.3, 1000))
            .getMessage());
    assertEquals(
        "polytropic exponent must be above 0, but is 0.0",
        assertThrows(
                IllegalArgumentException.class,
                () -> ReferencePressure.cylinderPressureKpa(9, 0, 1000))
            .getMessage());
  }

  @Test
  void anAbsentNumberGivesAnAbsentNumber() {
    assertTrue(Double.isNaN(ReferencePressure.toReferenceKpa(Double.NaN, 1000)));
    assertTrue(Double.isNaN(ReferencePressure.toReferenceKpa(1000, Double.NaN)));
    assertTrue(Double.isNaN(ReferencePressure.fromReferenceKpa(1000, Double.NaN)));
    assertTrue(Double.isNaN(ReferencePressure.cylinderPressureKpa(Double.NaN, 1.3, 1000)));
  }

  private static double pressureFactor(double feet) {
    double ambientHpa = StandardAtmosphere.pressureHpa(feet * METRES_PER_FOOT);
    return ReferencePressure.fromReferenceKpa(1.0, ambientHpa);
  }

  /** ISO 2533:1975: density falls as pressure over temperature. */
  private static double densityFactor(double feet) {
    double temperatureRatio = 1 - 0.0065 * feet * METRES_PER_FOOT / 288.15;
    return pressureFactor(feet) / temperatureRatio;
  }
}

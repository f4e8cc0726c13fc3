package borecensus.physics;

import static borecensus.ReferenceTable.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class StandardAtmosphereTest {
  /** Same formula, same constants: only the rounding of pow() is left, a few units in 1e-13. */
  private static final double ROUNDING_HPA = 1e-9;

  /** The two standards' gas constants differ in the seventh digit: 0.024 Pa at 5000 m. */
  private static final double BETWEEN_STANDARDS_HPA = 3e-4;

  static List<NamedCsvRecord> pressures() {
    return ReferenceTable.resource(StandardAtmosphereTest.class, "isa-pressure.csv");
  }

  static List<NamedCsvRecord> stations() {
    return ReferenceTable.resource(StandardAtmosphereTest.class, "qnh-station.csv");
  }

  @ParameterizedTest
  @MethodSource("pressures")
  void pressureAgreesWithBothStandards(NamedCsvRecord row) {
    double pressureHpa = StandardAtmosphere.pressureHpa(number(row, "height_m"));

    assertEquals(number(row, "iso_pa") / 100, pressureHpa, ROUNDING_HPA);
    assertEquals(number(row, "ussa_pa") / 100, pressureHpa, BETWEEN_STANDARDS_HPA);
  }

  @ParameterizedTest
  @MethodSource("pressures")
  void geometricHeightIsBroughtToGeopotentialHeightFirst(NamedCsvRecord row) {
    double geopotentialM = StandardAtmosphere.geopotentialHeightM(number(row, "height_m"));

    assertEquals(number(row, "geopotential_m"), geopotentialM, 1e-8);
    assertEquals(
        number(row, "geometric_hpa"),
        StandardAtmosphere.pressureHpa(geopotentialM),
        BETWEEN_STANDARDS_HPA);
  }

  @Test
  void theTropopauseHasThePressureOfTheStandard() {
    // ISO 2533:1975: 226.320400950078 hPa at 11 000 m, computed from its constants with R 4.2.2.
    assertEquals(226.320400950078, StandardAtmosphere.pressureHpa(11000), ROUNDING_HPA);
  }

  @ParameterizedTest
  @MethodSource("stations")
  void qnhIsBroughtToTheStation(NamedCsvRecord row) {
    double stationHpa =
        StandardAtmosphere.stationPressureHpa(number(row, "qnh_hpa"), number(row, "elevation_m"));

    assertEquals(number(row, "station_pa") / 100, stationHpa, ROUNDING_HPA);
    // The reference heights were printed to 1e-12 of 44 km.
    assertEquals(
        number(row, "pressure_altitude_m"), StandardAtmosphere.pressureAltitudeM(stationHpa), 1e-7);
  }

  @ParameterizedTest
  @MethodSource("stations")
  void aUsAltimeterSettingTakenForQnhIsThirdOfAHectopascalLow(NamedCsvRecord row) {
    double elevationM = number(row, "elevation_m");
    double fromAltimeterHpa =
        StandardAtmosphere.stationPressureHpa(number(row, "nws_altimeter_hpa"), elevationM);

    // The setting omits 0.3 hPa at sea level, and less as the air thins: 0.22 to 0.31 up to 3000 m.
    double lowByHpa = number(row, "station_pa") / 100 - fromAltimeterHpa;
    assertTrue(lowByHpa > 0.15 && lowByHpa < 0.32, () -> "low by " + lowByHpa);
  }

  /**
   * Values published by others. The first two follow the US (NWS) altimeter convention, 0.3 hPa
   * apart from the ICAO definition by design; the third follows ICAO and is printed to 0.0001 hPa.
   */
  @ParameterizedTest
  @CsvSource({
    // Unidata MetPy, tests/calc/test_basic.py (BSD-3): 29.8 inHg and 1013 hPa at 500 m.
    "1009.1438, 500, 950.96498, 0.3",
    "1013, 500, 954.639265, 0.3",
    // R package ambiance 1.3.1: QNH 1013 hPa at 1000 ft.
    "1013, 304.8, 976.9229, 0.00005"
  })
  void stationPressureAgreesWithThirdParties(
      double qnhHpa, double elevationM, double publishedHpa, double toleranceHpa) {
    assertEquals(
        publishedHpa, StandardAtmosphere.stationPressureHpa(qnhHpa, elevationM), toleranceHpa);
  }

  @Test
  void takingQnhForStationPressureAtFifteenHundredMetresIsAFifthOut() {
    double stationHpa = StandardAtmosphere.stationPressureHpa(1013.25, 1500);

    assertEquals(846, stationHpa, 0.5);
    assertEquals(1.198, 1013.25 / stationHpa, 0.0005);
  }

  @Property(seed = "1")
  void pressureAltitudeUndoesPressure(
      @ForAll @DoubleRange(min = -1000, max = 11000) double heightM) {
    double pressureHpa = StandardAtmosphere.pressureHpa(heightM);

    // dH/dp is at most 28 m/hPa here, and pressure is rounded at 1e-13 hPa.
    assertEquals(heightM, StandardAtmosphere.pressureAltitudeM(pressureHpa), 1e-7);
  }

  @Property(seed = "1")
  void pressureFallsWithHeight(
      @ForAll @DoubleRange(min = -1000, max = 10999) double heightM,
      @ForAll @DoubleRange(min = 0.01, max = 1) double stepM) {
    assertTrue(
        StandardAtmosphere.pressureHpa(heightM + stepM) < StandardAtmosphere.pressureHpa(heightM));
  }

  @Property(seed = "1")
  void atSeaLevelTheStationPressureIsTheQnh(
      @ForAll @DoubleRange(min = 900, max = 1080) double qnhHpa) {
    assertEquals(qnhHpa, StandardAtmosphere.stationPressureHpa(qnhHpa, 0), ROUNDING_HPA);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1000.1, 11000.1, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void aHeightOutsideTheTroposphereIsRefused(double heightM) {
    var refusal =
        assertThrows(IllegalArgumentException.class, () -> StandardAtmosphere.pressureHpa(heightM));

    assertEquals(
        "height must be from -1000.0 to 11000.0 m for the standard atmosphere, but is " + heightM,
        refusal.getMessage());
    assertThrows(
        IllegalArgumentException.class, () -> StandardAtmosphere.geopotentialHeightM(heightM));
    assertThrows(
        IllegalArgumentException.class, () -> StandardAtmosphere.stationPressureHpa(1000, heightM));
  }

  @ParameterizedTest
  @ValueSource(doubles = {226.2, 1139.5, 0, -1})
  void aPressureOutsideTheTroposphereIsRefused(double pressureHpa) {
    assertThrows(
        IllegalArgumentException.class, () -> StandardAtmosphere.pressureAltitudeM(pressureHpa));
  }

  @Test
  void anAbsentNumberGivesAnAbsentNumber() {
    assertTrue(Double.isNaN(StandardAtmosphere.pressureHpa(Double.NaN)));
    assertTrue(Double.isNaN(StandardAtmosphere.pressureAltitudeM(Double.NaN)));
    assertTrue(Double.isNaN(StandardAtmosphere.geopotentialHeightM(Double.NaN)));
    assertTrue(Double.isNaN(StandardAtmosphere.stationPressureHpa(Double.NaN, 100)));
    assertTrue(Double.isNaN(StandardAtmosphere.stationPressureHpa(1013.25, Double.NaN)));
  }
}

package borecensus.normalise;

import static borecensus.ledger.SheetBuilder.sheet;
import static borecensus.ledger.SmallFleet.AS_OF;
import static borecensus.ledger.SmallFleet.REGISTERS;
import static borecensus.ledger.SmallFleet.V1;
import static borecensus.ledger.SmallFleet.file;
import static borecensus.ledger.SmallFleet.replaced;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.PressureUnit;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import borecensus.ledger.SettledTest;
import borecensus.ledger.SheetBuilder;
import borecensus.ledger.VehicleSettler;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormaliserTest {
  private static final double NONE = Double.NaN;

  private final Normaliser normaliser = new Normaliser(REGISTERS);

  @Test
  void theMostTrustedSourceOfTheAmbientPressureIsTaken() {
    SheetBuilder everything =
        sheet().siteId("HIGH").altitudeM(1200).qnhHpa(1020).stationPressureHpa(850);
    assertEquals(AmbientSource.STATION_PRESSURE, ambient(everything).source());
    assertEquals(850, ambient(everything).hpa());
    assertEquals(AmbientSource.QNH, ambient(everything.stationPressureHpa(NONE)).source());
    assertEquals(AmbientSource.ALTITUDE, ambient(everything.qnhHpa(NONE)).source());
    assertEquals(AmbientSource.SITE_ELEVATION, ambient(everything.altitudeM(NONE)).source());
    assertEquals(AmbientSource.HOME_SITE_ELEVATION, ambient(everything.siteId("")).source());
  }

  @Test
  void qnhIsReducedToTheAltitudeOnTheSheetBeforeTheSites() {
    double low = ambient(sheet().siteId("HIGH").altitudeM(0).qnhHpa(1020)).hpa();
    assertEquals(1020, low, 0.001);
    double high = ambient(sheet().siteId("HIGH").qnhHpa(1020)).hpa();
    assertTrue(high > 845 && high < 855, "at 1500 m, but was " + high);
  }

  @Test
  void aSheetOfWhichNothingTellsTheAmbientPressureIsAFault() {
    SheetRow row = sheet().siteId("").row();
    assertThrows(IllegalArgumentException.class, () -> AmbientPressure.at(row, "", REGISTERS));
  }

  /**
   * QNH to station pressure, dry ISA relations (ICAO Doc 7488, Doc 8896), computed with R 4.2.2 as
   * p_ISA(pressure altitude(QNH) + elevation). There the elevation is geopotential and here it is
   * geometric: at 3000 m that makes 0.1 hPa, which the tolerance allows for.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 980, 980.00",
    "500, 980, 922.930207899892",
    "1000, 980, 868.581848724057",
    "1609.344, 980, 805.881938618152",
    "3000, 980, 676.433200547066",
    "100, 1013.25, 1001.29437738804",
    "1000, 1013.25, 898.745629162196",
    "2250, 1013.25, 770.584406300587",
    "0, 1035, 1035.00",
    "500, 1035, 975.335367680037",
    "1609.344, 1035, 852.864629357623",
    "3000, 1035, 717.236916024027"
  })
  void qnhAtAnElevationIsTheStationPressureOfPublishedTables(
      double elevationM, double qnhHpa, double stationHpa) {
    AmbientPressure ambient = ambient(sheet().altitudeM(elevationM).qnhHpa(qnhHpa));
    assertEquals(AmbientSource.QNH, ambient.source());
    assertEquals(stationHpa, ambient.hpa(), 0.15);
  }

  /** Standard pressures at geometric altitudes: US Standard Atmosphere 1976, table I. */
  @ParameterizedTest
  @CsvSource({"0, 1013.25", "1000, 898.76", "2000, 795.01", "3000, 701.21", "5000, 540.48"})
  void anAltitudeAloneMeansStandardWeather(double altitudeM, double hpa) {
    assertEquals(hpa, ambient(sheet().altitudeM(altitudeM)).hpa(), 0.01);
  }

  @Test
  void readingsComeInKilopascalAtReferenceConditions() {
    CompressionTest test =
        normalise(sheet().unit(PressureUnit.BAR).readings(12, 11.9).stationPressureHpa(506.625));
    assertArrayEquals(new double[] {1200, 1190, NONE, NONE}, test.gaugeKpa(), 1e-9);
    assertArrayEquals(new double[] {2400, 2380, NONE, NONE}, test.referenceKpa(), 1e-9);
    assertEquals(506.625, test.ambientHpa());
  }

  @Test
  void zeroStaysZeroAndACylinderNotReadStaysUnread() {
    CompressionTest test = normalise(sheet().readings(1200, 0, NONE, 1190).siteId("HIGH"));
    assertEquals(0, test.referenceKpa()[1]);
    assertTrue(Double.isNaN(test.referenceKpa()[2]));
    assertTrue(Double.isNaN(test.gaugeKpa()[2]));
    assertTrue(test.referenceKpa()[0] > 1400);
  }

  @Test
  void firstStrokeReadingsAreBroughtToReferenceTooOrAreAbsent() {
    assertEquals(0, normalise(sheet()).firstReferenceKpa().length);
    assertArrayEquals(
        new double[] {800, NONE, 0, NONE},
        normalise(sheet().firstReadings(800, NONE, 0).stationPressureHpa(1013.25))
            .firstReferenceKpa(),
        1e-9);
  }

  @Test
  void aSheetWithoutASiteWasMadeAtTheHomeSite() {
    assertEquals("D1", normalise(sheet().siteId("")).siteId());
    assertEquals("HIGH", normalise(sheet().siteId("HIGH")).siteId());
  }

  @Test
  void whatTheSheetSaysIsCarriedOver() {
    CompressionTest test =
        normalise(sheet("T7", "2025-05-05", 1234).hours(55).rows(3L, 4L).engineTempC(NONE));
    assertEquals("T7", test.testId());
    assertEquals("V1/engine-1", test.engineId());
    assertEquals(1234, test.distanceKm());
    assertEquals(55, test.engineHours());
    assertEquals(3, test.rowNumber());
    assertTrue(Double.isNaN(test.engineTempC()));
    assertTrue(test.trusted());
    assertFalse(
        normalise(sheet().throttle(Throttle.CLOSED)).trusted(), "doubts are carried over too");
  }

  @Test
  void historiesFollowTheSegmentsOfTheVehicle() {
    VehicleSettler settler = new VehicleSettler(REGISTERS, AS_OF);
    List<EngineHistory> histories =
        normaliser.histories(
            settler.settle(
                file(V1, replaced("2025-03-01", "S2")),
                List.of(
                    sheet("A", "2025-01-01", 1000).inFile(1),
                    sheet("B", "2025-04-01", 2000).inFile(1))));
    assertEquals(
        List.of("V1/engine-1", "V1/S2"), histories.stream().map(EngineHistory::engineId).toList());
    assertEquals(
        List.of(true, false), histories.stream().map(EngineHistory::originalEngine).toList());
    assertEquals("B", histories.get(1).tests().get(0).testId());
    assertEquals("F4", histories.get(0).familyId());
    assertEquals("D1", histories.get(0).homeSiteId());
  }

  private AmbientPressure ambient(SheetBuilder sheet) {
    return AmbientPressure.at(sheet.row(), "D1", REGISTERS);
  }

  private CompressionTest normalise(SheetBuilder sheet) {
    List<Doubt> doubts =
        sheet.row().throttle() == Throttle.CLOSED ? List.of(Doubt.CLOSED_THROTTLE) : List.of();
    return normaliser.normalise(new SettledTest(sheet.inFile(1), "V1/engine-1", doubts), "D1", 4);
  }
}

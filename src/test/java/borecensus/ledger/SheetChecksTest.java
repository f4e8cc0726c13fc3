package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static borecensus.ledger.SmallFleet.AS_OF;
import static borecensus.ledger.SmallFleet.REGISTERS;
import static borecensus.ledger.SmallFleet.V1;
import static borecensus.ledger.SmallFleet.V2;
import static borecensus.ledger.SmallFleet.V3;
import static borecensus.ledger.SmallFleet.vehicle;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.Vehicle;
import borecensus.intake.RowRefusal;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class SheetChecksTest {
  private static final double NONE = Double.NaN;

  private final SheetChecks checks = new SheetChecks(REGISTERS, AS_OF);

  @Test
  void aSoundSheetStands() {
    assertStands(sheet(), V1);
  }

  @Test
  void aVehicleThatIsNotRegisteredIsUnknown() {
    RowRefusal refusal = refusal(sheet().vehicleId("V9"), null);
    assertRefusal(refusal, RowCode.UNKNOWN_VEHICLE, "vehicle_id", "V9");
    assertTrue(refusal.message().startsWith("vehicle 'V9' is not registered. "));
  }

  @Test
  void aVehicleWhoseFamilyIsNotUsableIsUnknownToo() {
    RowRefusal refusal = refusal(sheet(), vehicle("V1", "GONE", ""));
    assertEquals(RowCode.UNKNOWN_VEHICLE, refusal.code());
    assertTrue(refusal.message().contains("family 'GONE'"));
  }

  @Test
  void aTestOnTheNightItselfStandsAndOneAfterItDoesNot() {
    assertStands(sheet().on("2026-01-01"), V1);
    assertRefusal(
        refusal(sheet().on("2026-01-02"), V1), RowCode.FUTURE_DATE, "tested_at", "2026-01-02");
  }

  @Test
  void aGaugeThatIsNotRegisteredIsUnknown() {
    assertRefusal(refusal(sheet().gaugeId("G9"), V1), RowCode.UNKNOWN_GAUGE, "gauge_id", "G9");
    assertRefusal(refusal(sheet().gaugeId(""), V1), RowCode.UNKNOWN_GAUGE, "gauge_id", "");
  }

  @Test
  void aSiteThatIsNotRegisteredIsUnknown() {
    assertRefusal(refusal(sheet().siteId("D9"), V1), RowCode.UNKNOWN_SITE, "site_id", "D9");
  }

  @Test
  void aSheetWithoutASiteNeedsAnotherSourceOfTheAmbientPressure() {
    Vehicle homeless = new Vehicle("V1", "F4", "", null, "");
    assertRefusal(refusal(sheet().siteId(""), homeless), RowCode.UNKNOWN_SITE, "site_id", "");
    assertRefusal(
        refusal(sheet().siteId("").qnhHpa(1015), homeless), RowCode.UNKNOWN_SITE, "site_id", "");
    assertStands(sheet().siteId("").altitudeM(300), homeless);
    assertStands(sheet().siteId("").stationPressureHpa(1000), homeless);
    assertStands(sheet().siteId(""), V1);
  }

  @Test
  void aQnhThatNoWeatherGivesFarBelowTheSeaIsRefusedAndNotAFault() {
    SheetBuilder low = sheet().siteId("LOW");
    assertStands(low.qnhHpa(1040), V1);
    assertRefusal(refusal(low.qnhHpa(1100), V1), RowCode.READING_OUT_OF_RANGE, "qnh_hpa", "1100.0");
    assertStands(low.stationPressureHpa(1060), V1);
  }

  @Test
  void aReadingTooManyIsAnotherEnginesSheet() {
    RowRefusal refusal = refusal(sheet().readings(1200, 1190, 1210, 1205, 1199), V1);
    assertRefusal(refusal, RowCode.CYLINDER_COUNT_MISMATCH, "cyl_5", "1199.0");
    assertTrue(refusal.message().contains("up to cylinder 5, the family has 4"));
  }

  @Test
  void twoCylindersShortIsAnotherEnginesSheet() {
    assertRefusal(
        refusal(sheet().readings(1200, 1190), V1), RowCode.CYLINDER_COUNT_MISMATCH, "cyl_3", "");
  }

  @Test
  void aFileWithTooFewColumnsIsAnotherEnginesFile() {
    assertRefusal(
        refusal(sheet().readings(1200, 1190, 1210).columns(3, 3), V1),
        RowCode.CYLINDER_COUNT_MISMATCH,
        "cyl_4",
        "");
  }

  @Test
  void oneCylinderNotReadAtTheEndOrSomeInTheMiddleAreAllowed() {
    assertStands(sheet().readings(1200, 1190, 1210), V1);
    assertStands(sheet().readings(NONE, NONE, NONE, 1205), V1);
  }

  @Test
  void aRowCutInTheMiddleOfItsReadingsIsMalformed() {
    RowRefusal refusal = refusal(sheet().readings(1200, 1190, 1210).columns(3, 4), V1);
    assertEquals(RowCode.MALFORMED_ROW, refusal.code());
    assertTrue(refusal.message().startsWith("the row ends before cylinder 4. "));
  }

  @Test
  void aFirstStrokeReadingTooManyIsToldUnderItsOwnColumn() {
    RowRefusal refusal = refusal(sheet().firstReadings(800, 810, 805, 800, 799), V1);
    assertRefusal(refusal, RowCode.CYLINDER_COUNT_MISMATCH, "first_5", "799.0");
    assertTrue(refusal.message().contains("up to cylinder 5"));
  }

  @ParameterizedTest
  @CsvSource({
    // written in psi (about 174), under ...
    "174, BAR, psi",
    "174, KPA, psi",
    "174, MPA, psi",
    "174, KGF_CM2, psi",
    // written in kPa
    "1200, PSI, kpa",
    "1200, BAR, kpa",
    "1200, MPA, kpa",
    // written in bar
    "12, PSI, bar or kgf_cm2",
    "12, KPA, bar or kgf_cm2",
    "12, MPA, bar or kgf_cm2",
    // written in MPa
    "1.2, BAR, mpa",
    "1.2, PSI, mpa",
    "1.2, KPA, mpa",
    "1.2, KGF_CM2, mpa"
  })
  void aSheetInAnotherUnitThanItStatesIsQuestioned(double level, PressureUnit stated, String fits) {
    for (Vehicle vehicle : new Vehicle[] {V1, V2}) {
      RowRefusal refusal =
          refusal(
              sheet().gaugeId("GD").unit(stated).readings(level, 0.98 * level, level, level),
              vehicle);
      assertRefusal(refusal, RowCode.UNIT_IMPLAUSIBLE, "unit", stated.code());
      assertTrue(
          refusal.message().contains("read as " + fits + " the numbers would fit"),
          refusal.message());
      assertTrue(refusal.message().endsWith(RowCode.UNIT_IMPLAUSIBLE.remedy()));
    }
  }

  @ParameterizedTest
  @CsvSource({"390, BAR", "390, KPA", "2700, PSI", "27, PSI", "27, MPA", "2.7, BAR"})
  void aDieselOfWhichOnlyTheFuelIsKnownIsQuestionedToo(double level, PressureUnit stated) {
    RowRefusal refusal =
        refusal(sheet().gaugeId("GD").unit(stated).readings(level, level, level, level), V3);
    assertEquals(RowCode.UNIT_IMPLAUSIBLE, refusal.code());
  }

  @ParameterizedTest
  @EnumSource(PressureUnit.class)
  void everyUnitThatIsStatedRightStands(PressureUnit unit) {
    for (double kpa : new double[] {600, 900, 1200, 1600}) {
      double level = unit.fromKpa(kpa);
      assertStands(sheet().gaugeId("GD").unit(unit).readings(level, level, level, level), V1);
      assertStands(sheet().gaugeId("GD").unit(unit).readings(level, level, level, level), V2);
    }
  }

  @Test
  void aDeadEngineOfZerosIsKept() {
    assertStands(sheet().readings(0, 0, 0, 0), V1);
  }

  @Test
  void oneOrSeveralDeadCylindersAreKeptInAnyUnit() {
    assertStands(sheet().readings(1200, 0, 1190, 1210), V1);
    assertStands(sheet().gaugeId("GP").unit(PressureUnit.PSI).readings(174, 0, 0, 0), V1);
    assertStands(sheet().readings(60, 1200, 0, 40), V1);
  }

  @Test
  void aWornEngineFarBelowItsNominalIsKept() {
    assertStands(sheet().readings(380, 300, 420, 350), V1);
  }

  @Test
  void oneCylinderBeyondWhatTheEngineCanShowIsRefused() {
    RowRefusal refusal = refusal(sheet().gaugeId("GD").readings(1200, 12000, 1210, 1205), V1);
    assertRefusal(refusal, RowCode.READING_OUT_OF_RANGE, "cyl_2", "12000.0");
    assertTrue(refusal.message().contains("an engine of this family can show (3000 kPa)"));
  }

  @Test
  void aReadingBeyondTheEndOfTheScaleIsRefusedWithAnAllowanceForTheNeedle() {
    assertStands(sheet().readings(1200, 1190, 2040, 1205), V1);
    RowRefusal refusal = refusal(sheet().readings(1200, 1190, 2041, 1205), V1);
    assertRefusal(refusal, RowCode.READING_OUT_OF_RANGE, "cyl_3", "2041.0");
    assertTrue(refusal.message().contains("the gauge can show (2000 kPa)"));
  }

  @Test
  void theEndOfTheScaleIsComparedAcrossUnits() {
    assertStands(sheet().gaugeId("GP").readings(1200, 1190, 2000, 1205), V1);
    assertFalse(
        checks.check(sheet().gaugeId("GP").readings(1200, 1190, 2200, 1205).row(), V1).isEmpty());
  }

  @Test
  void aMonstrousReadingIsRefusedAndNotAFault() {
    RowRefusal refusal =
        refusal(sheet().unit(PressureUnit.MPA).readings(1e307, 1e307, 1e307, 1e307), V1);
    assertEquals(RowCode.READING_OUT_OF_RANGE, refusal.code());
    assertTrue(refusal.value().length() < 210);
  }

  private RowRefusal refusal(SheetBuilder sheet, Vehicle vehicle) {
    return checks.check(sheet.row(), vehicle).orElseThrow();
  }

  private void assertStands(SheetBuilder sheet, Vehicle vehicle) {
    assertEquals(Optional.empty(), checks.check(sheet.row(), vehicle).map(RowRefusal::message));
  }

  private static void assertRefusal(RowRefusal refusal, RowCode code, String column, String value) {
    assertEquals(code, refusal.code(), refusal.message());
    assertEquals(column, refusal.column());
    assertEquals(value, refusal.value());
    assertTrue(refusal.message().endsWith(code.remedy()), refusal.message());
  }
}

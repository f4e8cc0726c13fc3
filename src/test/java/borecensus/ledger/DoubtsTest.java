package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Doubt;
import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DoubtsTest {
  private static final double NONE = Double.NaN;

  @Test
  void aSoundSheetIsBelieved() {
    assertEquals(List.of(), Doubts.ofSheet(sheet().row(), 0));
  }

  @Test
  void aClosedThrottleIsDoubtedAndOneNotStatedIsNot() {
    assertEquals(
        List.of(Doubt.CLOSED_THROTTLE), Doubts.ofSheet(sheet().throttle(Throttle.CLOSED).row(), 0));
    assertEquals(List.of(), Doubts.ofSheet(sheet().throttle(Throttle.NOT_STATED).row(), 0));
  }

  @Test
  void fewerThanFourStrokesAreTooFew() {
    assertEquals(List.of(Doubt.TOO_FEW_STROKES), Doubts.ofSheet(sheet().strokes(3).row(), 0));
    assertEquals(List.of(), Doubts.ofSheet(sheet().strokes(4).row(), 0));
    assertEquals(List.of(), Doubts.ofSheet(sheet().strokes(NONE).row(), 0));
  }

  @Test
  void severalDoubtsStandTogether() {
    assertEquals(
        List.of(Doubt.CLOSED_THROTTLE, Doubt.TOO_FEW_STROKES),
        Doubts.ofSheet(sheet().throttle(Throttle.CLOSED).strokes(2).row(), 0));
  }

  @Test
  void readingsThatNeverFallAreDoubtedWhenChanceHardlyOrdersThemSo() {
    assertTrue(Doubts.neverFalls(new double[] {1100, 1120, 1130, 1150, 1160, 1180}));
    assertTrue(Doubts.neverFalls(new double[] {1100, 1120, 1130, 1150, 1160}), "1 in 120");
    assertFalse(Doubts.neverFalls(new double[] {1100, 1120, 1110, 1150, 1160, 1180}));
  }

  @Test
  void fourCylindersAreOrderedByChanceTooOften() {
    assertFalse(Doubts.neverFalls(new double[] {1100, 1120, 1130, 1150}), "1 in 24");
  }

  @Test
  void tiesMakeAnOrderLikelier() {
    assertTrue(Doubts.neverFalls(new double[] {1, 1, 2, 3, 4, 5}), "2 in 720");
    assertFalse(Doubts.neverFalls(new double[] {1, 1, 1, 1, 2, 3}), "24 in 720");
    assertFalse(Doubts.neverFalls(new double[] {1, 1, 2, 3, 4}), "2 in 120");
    assertFalse(Doubts.neverFalls(new double[] {5, 5, 5, 5, 5, 5, 5, 5}), "always");
    assertTrue(Doubts.neverFalls(new double[] {1, 1, 2, 2, 3, 3, 4, 4}), "16 in 40320");
  }

  @Test
  void cylindersNotReadDoNotCount() {
    assertTrue(Doubts.neverFalls(new double[] {1, NONE, 2, 3, NONE, 4, 5}));
    assertFalse(Doubts.neverFalls(new double[] {1, NONE, 2, 3, NONE, 4}));
    assertFalse(Doubts.neverFalls(new double[] {}));
  }

  @ParameterizedTest
  @CsvSource({
    "1013, 1500, true", "845.6, 1500, false", "870, 1500, false", "890, 1500, true",
    "1040, 0, false", "1013, 300, false", "1013, 600, true", "NaN, 1500, false",
    "1013, NaN, false"
  })
  void aBarometerThatShowsSeaLevelHighUpIsDoubted(double hpa, double elevationM, boolean doubted) {
    assertEquals(
        doubted,
        Doubts.ofSheet(sheet().stationPressureHpa(hpa).row(), elevationM)
            .contains(Doubt.SEA_LEVEL_PRESSURE_AT_ALTITUDE));
  }

  @Test
  void equalReadingsOnAFineDialAreCopied() {
    assertArrayEquals(
        new boolean[] {false, false, true},
        copied(
            1,
            sheet("A", "2025-01-01", 1).readings(1201, 1187, 1210, 1195),
            sheet("B", "2025-02-01", 2).readings(1199, 1187, 1210, 1195),
            sheet("C", "2025-03-01", 3).readings(1201, 1187, 1210, 1195)));
  }

  @Test
  void equalReadingsOnACoarseDialAreChance() {
    SheetBuilder first = sheet("A", "2025-01-01", 1).unit(PressureUnit.PSI);
    SheetBuilder second = sheet("B", "2025-02-01", 2).unit(PressureUnit.PSI);
    assertArrayEquals(
        new boolean[] {false, false},
        copied(5, first.readings(170, 175, 170, 175), second.readings(170, 175, 170, 175)));
  }

  @Test
  void manyEqualReadingsAreCopiedEvenOnACoarseDial() {
    double[] twelve = new double[12];
    Arrays.setAll(twelve, i -> 165 + 5 * (i % 3));
    assertArrayEquals(
        new boolean[] {false, true},
        copied(
            5,
            sheet("A", "2025-01-01", 1).unit(PressureUnit.PSI).readings(twelve),
            sheet("B", "2025-02-01", 2).unit(PressureUnit.PSI).readings(twelve)));
  }

  @Test
  void anotherKindOrUnitIsNoCopy() {
    assertArrayEquals(
        new boolean[] {false, false, false},
        copied(
            0.001,
            sheet("A", "2025-01-01", 1),
            sheet("B", "2025-02-01", 2).kind(SheetKind.WET),
            sheet("C", "2025-03-01", 3).unit(PressureUnit.BAR)));
  }

  @Test
  void aDeadEngineTwiceIsNoCopy() {
    assertArrayEquals(
        new boolean[] {false, false},
        copied(
            1,
            sheet("A", "2025-01-01", 1).readings(0, 0, 0, 0),
            sheet("B", "2025-02-01", 2).readings(0, 0, 0, 0)));
  }

  private static boolean[] copied(double resolution, SheetBuilder... sheets) {
    List<SheetRow> rows = Arrays.stream(sheets).map(SheetBuilder::row).toList();
    double[] resolutions = new double[rows.size()];
    Arrays.fill(resolutions, resolution);
    return Doubts.copied(rows, resolutions);
  }
}

package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.RowCode;
import borecensus.ledger.TestIdentity.Relation;
import java.util.List;
import org.junit.jupiter.api.Test;

class TestIdentityTest {
  private static final double[] OTHER = {1100, 1100, 1100, 1100};

  private final Outcome.Builder outcome = new Outcome.Builder();

  @Test
  void theSameSheetAgainIsSuperseded() {
    LedgerSheet first = sheet().inFile(1);
    assertEquals(
        List.of(first), resolve(first, sheet().rows(2L).inFile(1), sheet().rows(9L).inFile(2)));
    assertEquals(2, outcome.build().superseded().size());
    assertEquals(List.of(), outcome.build().refused());
  }

  @Test
  void aCorrectionInALaterFileWins() {
    LedgerSheet corrected = sheet().readings(OTHER).inFile(2);
    assertEquals(List.of(corrected), resolve(sheet().inFile(1), corrected));
    assertEquals(
        List.of(new Outcome.Superseded(1, "sheets/1.csv", 1)), outcome.build().superseded());
  }

  @Test
  void aChangedRemarkIsACorrectionToo() {
    LedgerSheet corrected = sheet().remarks("valve cover leaks").inFile(2);
    assertEquals(List.of(corrected), resolve(sheet().inFile(1), corrected));
  }

  @Test
  void theLastOfSeveralCorrectionsWins() {
    LedgerSheet last = sheet().readings(1, 2, 3, 4).inFile(3);
    assertEquals(
        List.of(last), resolve(sheet().inFile(1), sheet().readings(OTHER).inFile(2), last));
    assertEquals(2, outcome.build().superseded().size());
  }

  @Test
  void aDifferentSheetInTheSameFileIsRefusedWithThePlaceOfTheFirst() {
    LedgerSheet first = sheet().rows(3L).inFile(1);
    assertEquals(List.of(first), resolve(first, sheet().rows(7L).readings(OTHER).inFile(1)));
    Outcome.Refused refused = outcome.build().refused().get(0);
    assertEquals(RowCode.DUPLICATE_OF, refused.refusal().code());
    assertEquals("test_id", refused.refusal().column());
    assertEquals("T1", refused.refusal().value());
    assertEquals(7, refused.refusal().rowNumber());
    assertTrue(refused.refusal().message().contains("sheets/1.csv, row 3"));
    assertTrue(refused.refusal().message().endsWith(RowCode.DUPLICATE_OF.remedy()));
  }

  @Test
  void aFileThatRepeatsAnOldSheetAndAddsAnotherUnderItsNumberGivesTheNumberTwice() {
    LedgerSheet first = sheet().inFile(1);
    assertEquals(
        List.of(first),
        resolve(first, sheet().inFile(2), sheet().rows(2L).readings(OTHER).inFile(2)));
    assertEquals(1, outcome.build().superseded().size());
    assertEquals(1, outcome.build().refused().size());
  }

  @Test
  void aCorrectionStaysPossibleAfterARepeat() {
    LedgerSheet corrected = sheet().readings(OTHER).inFile(3);
    assertEquals(List.of(corrected), resolve(sheet().inFile(1), sheet().inFile(2), corrected));
  }

  @Test
  void differentNumbersHaveNothingToDoWithEachOther() {
    assertEquals(2, resolve(sheet().inFile(1), sheet().testId("T2").inFile(1)).size());
    assertEquals(0, outcome.build().superseded().size());
  }

  @Test
  void everyRecordOfALongTestIsCounted() {
    resolve(
        sheet().rows(1L, 2L, 3L, 4L).inFile(1),
        sheet().rows(5L, 6L, 7L, 8L).inFile(1),
        sheet().rows(9L, 10L, 11L, 12L).readings(OTHER).inFile(1));
    assertEquals(
        List.of(5L, 6L, 7L, 8L),
        outcome.build().superseded().stream().map(Outcome.Superseded::rowNumber).toList());
    assertEquals(
        List.of(9L, 10L, 11L, 12L),
        outcome.build().refused().stream().map(r -> r.refusal().rowNumber()).toList());
  }

  @Test
  void aLaterSheetOfAnotherVehicleOnTheSameDateCorrectsTheVehicle() {
    LedgerSheet wrong = sheet().inFile(1);
    LedgerSheet right = sheet().vehicleId("V2").inFile(2);
    assertEquals(Relation.CORRECTION, TestIdentity.relate(wrong, right));
    Outcome across = TestIdentity.resolveAcrossVehicles(List.of(right, wrong));
    assertEquals(List.of(new Outcome.Superseded(1, "sheets/1.csv", 1)), across.superseded());
    assertEquals(List.of(), across.refused());
  }

  @Test
  void aLaterSheetOfAnotherVehicleOnAnotherDateIsAnotherTest() {
    LedgerSheet first = sheet().inFile(1);
    LedgerSheet other = sheet().vehicleId("V2").on("2025-02-02").inFile(2);
    Outcome across = TestIdentity.resolveAcrossVehicles(List.of(first, other));
    assertEquals(List.of(), across.superseded());
    assertEquals("sheets/2.csv", across.refused().get(0).refusal().sourceFile());
    assertEquals(RowCode.DUPLICATE_OF, across.refused().get(0).refusal().code());
  }

  @Test
  void anotherVehicleInTheSameFileNeverTakesANumber() {
    Outcome across =
        TestIdentity.resolveAcrossVehicles(
            List.of(sheet().inFile(1), sheet().rows(2L).vehicleId("V2").inFile(1)));
    assertEquals(1, across.refused().size());
    assertEquals(0, across.superseded().size());
  }

  @Test
  void allSheetsOfTheVehicleThatLosesANumberAreSuperseded() {
    Outcome across =
        TestIdentity.resolveAcrossVehicles(
            List.of(
                sheet().inFile(1),
                sheet().readings(OTHER).inFile(2),
                sheet().vehicleId("V2").inFile(3),
                sheet().vehicleId("V2").readings(OTHER).inFile(4)));
    assertEquals(
        List.of(1L, 2L), across.superseded().stream().map(Outcome.Superseded::fileOrder).toList());
  }

  private List<LedgerSheet> resolve(LedgerSheet... sheets) {
    return TestIdentity.resolve(List.of(sheets), outcome);
  }
}

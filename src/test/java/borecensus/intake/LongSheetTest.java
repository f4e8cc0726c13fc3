package borecensus.intake;

import static borecensus.intake.SheetText.file;
import static borecensus.intake.SheetText.longCells;
import static borecensus.intake.SheetText.read;
import static borecensus.intake.SheetText.with;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.RowCode;
import borecensus.intake.SheetText.Read;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LongSheetTest {

  @Test
  void recordsOfOneTestAreOneSheet() {
    SheetRow row =
        read(file(longCells(1, "151"), longCells(2, "0"), longCells(3, "153"))).onlyTest();
    assertArrayEquals(new double[] {151, 0, 153}, row.readings());
    assertEquals(List.of(1L, 2L, 3L), row.rowNumbers());
    assertEquals(1, row.place().rowNumber());
  }

  @Test
  void recordsMayStandAnywhereInTheFile() {
    List<Map<String, String>> records = new ArrayList<>();
    for (String id : List.of("T1", "T2", "T3")) {
      for (int cylinder = 1; cylinder <= 6; cylinder++) {
        records.add(with(longCells(cylinder, id.substring(1) + "0" + cylinder), "test_id", id));
      }
    }
    Collections.shuffle(records, new Random(11));
    Read read = read(file(records));
    assertEquals(3, read.tests().size());
    for (SheetRow row : read.tests()) {
      int base = 100 * Integer.parseInt(row.testId().substring(1));
      assertArrayEquals(
          new double[] {base + 1, base + 2, base + 3, base + 4, base + 5, base + 6},
          row.readings());
    }
    assertEquals(LongStream.rangeClosed(1, 18).boxed().toList(), read.accounted());
  }

  @Test
  void anExactRepeatOfARecordIsCountedAsOne() {
    Read read = read(file(longCells(1, "151"), longCells(2, "152"), longCells(1, "151.0")));
    assertEquals(List.of(new RowPlace(SheetText.FILE, 3)), read.repeated());
    assertEquals(List.of(1L, 2L), read.onlyTest().rowNumbers());
  }

  @Test
  void anotherReadingOfTheSameCylinderIsRefused() {
    Read read = read(file(longCells(1, "151"), longCells(2, "152"), longCells(1, "130")));
    RowRefusal refusal = read.onlyRefusal();
    assertEquals(RowCode.DUPLICATE_OF, refusal.code());
    assertEquals("pressure", refusal.column());
    assertEquals("130.0", refusal.value());
    assertEquals(3, refusal.rowNumber());
    assertTrue(
        refusal.message().contains("stands in row 1 and has another reading of cylinder 1"),
        refusal.message());
    assertArrayEquals(new double[] {151, 152}, read.tests().get(0).readings());
  }

  @Test
  void anEmptyReadingAgainstAFilledOneShowsAnEmptyValue() {
    RowRefusal refusal = read(file(longCells(1, "151"), longCells(1, ""))).onlyRefusal();
    assertEquals("", refusal.value());
  }

  @Test
  void aRecordThatDiffersInMoreThanTheCylinderIsRefused() {
    Read read = read(file(longCells(1, "151"), with(longCells(2, "152"), "gauge_id", "G2")));
    assertEquals(List.of(1L), read.tests().get(0).rowNumbers());
    assertEquals(RowCode.DUPLICATE_OF, read.onlyRefusal().code());
    assertEquals("test_id", read.onlyRefusal().column());
    assertEquals("T1", read.onlyRefusal().value());
    assertEquals(2, read.onlyRefusal().rowNumber());
  }

  @Test
  void aSlipOnTheFirstRecordCostsThatRecordAndNotTheTest() {
    Read read =
        read(
            file(
                with(longCells(1, "151"), "odometer_km", "12000"),
                longCells(2, "152"),
                longCells(3, "153"),
                longCells(4, "154")));
    assertEquals(1, read.onlyRefusal().rowNumber());
    assertTrue(read.onlyRefusal().message().contains("stands in row 2"));
    assertArrayEquals(new double[] {Double.NaN, 152, 153, 154}, read.tests().get(0).readings());
  }

  @Test
  void ofTwoWholeTestsUnderOneNumberTheFirstStands() {
    List<Map<String, String>> records = new ArrayList<>();
    for (int cylinder = 1; cylinder <= 3; cylinder++) {
      records.add(longCells(cylinder, "150"));
    }
    for (int cylinder = 1; cylinder <= 4; cylinder++) {
      records.add(with(longCells(cylinder, "160"), "vehicle_id", "V2"));
    }
    Read read = read(file(records));
    assertEquals(List.of(1L, 2L, 3L), read.tests().get(0).rowNumbers());
    assertEquals(
        List.of(4L, 5L, 6L, 7L), read.refused().stream().map(RowRefusal::rowNumber).toList());
  }

  @Test
  void remarksMayDifferFromCylinderToCylinderAndAreKept() {
    SheetRow row =
        read(file(
                longCells(1, "151"),
                with(longCells(2, "152"), "remarks", "plug oily"),
                with(longCells(3, "153"), "remarks", "thread worn")))
            .onlyTest();
    assertEquals(3, row.readings().length);
    assertEquals("plug oily; thread worn", row.remarks());
  }

  @Test
  void firstStrokeReadingsMayStandOnTheirOwnRecords() {
    SheetRow row =
        read(file(
                with(with(longCells(1, "151"), "first_1", "91"), "first_2", ""),
                with(longCells(2, "152"), "first_2", "92")))
            .onlyTest();
    assertArrayEquals(new double[] {91, 92}, row.firstReadings());
  }

  @Test
  void firstStrokeReadingsThatContradictEachOtherAreRefused() {
    RowRefusal refusal =
        read(file(
                with(longCells(1, "151"), "first_1", "91"),
                with(longCells(2, "152"), "first_1", "80")))
            .onlyRefusal();
    assertEquals(RowCode.DUPLICATE_OF, refusal.code());
    assertEquals("first_1", refusal.column());
    assertEquals("80.0", refusal.value());
  }

  @Test
  void anEmptyPressureIsACylinderNotRead() {
    SheetRow row =
        read(file(longCells(1, "151"), longCells(2, ""), longCells(3, "153"))).onlyTest();
    assertArrayEquals(new double[] {151, Double.NaN, 153}, row.readings());
    assertEquals(3, row.rowNumbers().size(), "every record is spoken for");
  }

  @Test
  void emptyRecordsBehindTheLastCylinderAreNoReadings() {
    SheetRow row = read(file(longCells(1, "151"), longCells(2, ""), longCells(3, ""))).onlyTest();
    assertArrayEquals(new double[] {151}, row.readings());
    assertEquals(List.of(1L, 2L, 3L), row.rowNumbers());
  }

  @Test
  void aTestWithoutAnyPressureIsMissingReadingOnEveryRecord() {
    Read read = read(file(longCells(1, ""), longCells(2, "")));
    assertEquals(2, read.refused().size());
    for (RowRefusal refusal : read.refused()) {
      assertEquals(RowCode.MISSING_READING, refusal.code());
      assertEquals("pressure", refusal.column());
    }
  }

  @Test
  void oneBadRecordCostsOneCylinder() {
    Read read = read(file(longCells(1, "151"), longCells(2, "15O"), longCells(3, "153")));
    assertEquals(RowCode.BAD_NUMBER, read.onlyRefusal().code());
    assertEquals("pressure", read.onlyRefusal().column());
    assertEquals("15O", read.onlyRefusal().value());
    assertArrayEquals(new double[] {151, Double.NaN, 153}, read.tests().get(0).readings());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "|bad_number",
        "x|bad_number",
        "1.5|bad_number",
        "0|cylinder_count_mismatch",
        "-1|cylinder_count_mismatch",
        "17|cylinder_count_mismatch",
        "99999999999|cylinder_count_mismatch"
      })
  void aCylinderThatIsNoneIsRefused(String cylinder, String code) {
    String cell = cylinder == null ? "" : cylinder;
    Read read = read(file(longCells(1, "151"), with(longCells(2, "152"), "cylinder", cell)));
    assertEquals(code, read.onlyRefusal().code().code());
    assertEquals("cylinder", read.onlyRefusal().column());
    assertEquals(cell, read.onlyRefusal().value());
    assertTrue(read.onlyRefusal().message().endsWith(read.onlyRefusal().code().remedy()));
  }

  @Test
  void aBadCylinderAndABadDateAreToldAtOnce() {
    Map<String, String> cells = with(longCells(1, "151"), "tested_at", "soon");
    cells.put("cylinder", "x");
    RowRefusal refusal = read(file(cells)).onlyRefusal();
    assertEquals(RowCode.BAD_DATE, refusal.code());
    assertTrue(refusal.message().contains("bad_number in cylinder"), refusal.message());
  }

  @Property(tries = 300)
  void everyRecordIsSpokenForExactlyOnce(
      @ForAll @Size(max = 30) List<@IntRange(max = 2000) Integer> numbers) {
    List<Map<String, String>> records = new ArrayList<>();
    records.add(longCells(1, "150"));
    numbers.forEach(number -> records.add(record(number)));
    Read read = read(file(records));
    assertEquals(LongStream.rangeClosed(1, records.size()).boxed().toList(), read.accounted());
    assertEquals(records.size(), read.end().records());
    for (SheetRow row : read.tests()) {
      assertTrue(row.hasReading());
    }
  }

  /** A record with now and then something wrong in it. */
  private static Map<String, String> record(int number) {
    Random random = new Random(number);
    Map<String, String> cells = longCells(1 + random.nextInt(3), "15" + random.nextInt(2));
    cells.put("test_id", "T" + random.nextInt(3));
    switch (random.nextInt(9)) {
      case 0 -> cells.put("pressure", "");
      case 1 -> cells.put("pressure", "x");
      case 2 -> cells.put("cylinder", "0");
      case 3 -> cells.put("gauge_id", "G2");
      case 4 -> cells.put("remarks", "a \"b\",\nc");
      case 5 -> cells.replaceAll((column, value) -> "");
      case 6 -> cells.put("test_id", "");
      default -> cells.put("unit", "psi");
    }
    return cells;
  }
}

package borecensus.intake;

import static borecensus.intake.SheetText.file;
import static borecensus.intake.SheetText.read;
import static borecensus.intake.SheetText.wideCells;
import static borecensus.intake.SheetText.with;
import static borecensus.intake.SheetText.without;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.SheetText.Read;
import borecensus.tabular.CsvTable;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WideSheetTest {

  @Test
  void everyCellFindsItsPlace() {
    Map<String, String> cells = with(wideCells(), "altitude_m", "1500");
    cells.put("station_pressure_hpa", "846.5");
    cells.put("qnh_hpa", "1015");
    cells.put("cranking_rpm", "240");
    cells.put("adaptor_id", "A7");
    cells.put("remarks", "smokes, a little");
    cells.put("first_1", "90");
    cells.put("first_2", "91.5");
    SheetRow row = read(file(cells)).onlyTest();
    assertEquals(new RowPlace(SheetText.FILE, 1), row.place());
    assertEquals("T1", row.testId());
    assertEquals("V1", row.vehicleId());
    assertEquals("S1", row.engineSerial());
    assertEquals(LocalDateTime.of(2026, 3, 31, 14, 5), row.testedAt());
    assertEquals(120000, row.odometerKm());
    assertTrue(Double.isNaN(row.engineHours()));
    assertEquals("D1", row.siteId());
    assertEquals(1500, row.altitudeM());
    assertEquals(846.5, row.stationPressureHpa());
    assertEquals(1015, row.qnhHpa());
    assertEquals("G1", row.gaugeId());
    assertEquals(PressureUnit.PSI, row.unit());
    assertEquals(SheetKind.DRY, row.kind());
    assertEquals(Throttle.OPEN, row.throttle());
    assertEquals(85, row.engineTempC());
    assertEquals(240, row.crankingRpm());
    assertEquals(6, row.strokes());
    assertEquals("A7", row.adaptorId());
    assertEquals("smokes, a little", row.remarks());
    assertArrayEquals(new double[] {151, 152, 153, 154}, row.readings());
    assertArrayEquals(new double[] {90, 91.5}, row.firstReadings());
  }

  @Test
  void theOrderOfColumnsIsFree() {
    String expected = read(file(wideCells())).onlyTest().content();
    for (int seed = 0; seed < 20; seed++) {
      List<String> columns = new ArrayList<>(wideCells().keySet());
      Collections.shuffle(columns, new Random(seed));
      Map<String, String> shuffled = new LinkedHashMap<>();
      columns.forEach(column -> shuffled.put(column, wideCells().get(column)));
      assertEquals(expected, read(file(shuffled)).onlyTest().content());
    }
  }

  @Test
  void aSemicolonFileWithDecimalCommasSaysTheSame() {
    Map<String, String> cells = with(wideCells(), "cyl_1", "150.5");
    String semicolons = file(cells).replace(',', ';').replace("150.5", "150,5");
    assertEquals(read(file(cells)).onlyTest().content(), read(semicolons).onlyTest().content());
  }

  @Test
  void unknownColumnsAreNotedAndIgnored() {
    Map<String, String> cells = with(wideCells(), "mechanic", "x");
    cells.put("cyl_17", "150");
    cells.put("", "y");
    Read read = read(file(cells));
    assertEquals(List.of("mechanic", "cyl_17"), read.end().unknownColumns());
    assertEquals(4, read.onlyTest().readings().length);
  }

  @Test
  void aColumnThatStandsTwiceIsReadOnceAndNoted() {
    String text = file(with(wideCells(), "cyl_5", "999")).replace("cyl_5", "cyl_4");
    Read read = read(text);
    assertEquals(List.of("cyl_4"), read.end().unknownColumns());
    assertEquals(154, read.onlyTest().readings()[3]);
  }

  @Test
  void noBreakSpacesAroundACellAreBlanks() {
    Map<String, String> cells = with(wideCells(), "vehicle_id", "\u00A0V1\u202F");
    cells.put("unit", "psi\u00A0");
    cells.put("cyl_1", "\u202F151 ");
    assertEquals(
        read(file(wideCells())).onlyTest().content(), read(file(cells)).onlyTest().content());
  }

  @Test
  void zeroIsAReadingAndEmptyIsNone() {
    Map<String, String> cells = with(wideCells(), "cyl_2", "0");
    cells.put("cyl_3", " ");
    double[] readings = read(file(cells)).onlyTest().readings();
    assertArrayEquals(new double[] {151, 0, Double.NaN, 154}, readings);
  }

  @Test
  void anEngineOfZerosOnlyHasReadings() {
    Map<String, String> cells = wideCells();
    cells.replaceAll((column, value) -> column.startsWith("cyl_") ? "0" : value);
    assertArrayEquals(new double[4], read(file(cells)).onlyTest().readings());
  }

  @Test
  void cellsBehindTheLastReadingAreNoReadings() {
    Map<String, String> cells = with(wideCells(), "cyl_5", "");
    cells.put("cyl_6", "");
    SheetRow row = read(file(cells)).onlyTest();
    assertEquals(4, row.readings().length);
    assertEquals(6, row.cylinderColumns());
    assertEquals(6, row.fileCylinderColumns());
  }

  @Test
  void milesAreTurnedIntoKilometres() {
    Map<String, String> cells = without(wideCells(), "odometer_km"::equals);
    cells.put("odometer_mi", "1000");
    assertEquals(1609.344, read(file(cells)).onlyTest().odometerKm(), 1e-9);
  }

  @Test
  void hoursAloneSuffice() {
    Map<String, String> cells = without(wideCells(), "odometer_km"::equals);
    cells.put("engine_hours", "4321.5");
    SheetRow row = read(file(cells)).onlyTest();
    assertEquals(4321.5, row.engineHours());
    assertTrue(Double.isNaN(row.odometerKm()));
  }

  @Test
  void twoOdometersThatAgreeAreFine() {
    assertEquals(
        120000, read(file(with(wideCells(), "odometer_mi", "74565"))).onlyTest().odometerKm());
  }

  @Test
  void twoOdometersThatDisagreeAreRefused() {
    RowRefusal refusal = read(file(with(wideCells(), "odometer_mi", "120000"))).onlyRefusal();
    assertEquals(RowCode.BAD_NUMBER, refusal.code());
    assertEquals("odometer_mi", refusal.column());
    assertEquals("120000", refusal.value());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "test_id||malformed_row",
        "vehicle_id| |malformed_row",
        "tested_at||bad_date",
        "tested_at|31.03.2026|bad_date",
        "tested_at|2026-02-31|bad_date",
        "odometer_km||bad_number",
        "odometer_km|12 0000|bad_number",
        "odometer_km|-5|reading_out_of_range",
        "odometer_km|99999999|reading_out_of_range",
        "altitude_m|high|bad_number",
        "altitude_m|9000|reading_out_of_range",
        "station_pressure_hpa|29.92|reading_out_of_range",
        "station_pressure_hpa|x|bad_number",
        "qnh_hpa|101.3|reading_out_of_range",
        "unit||unit_unknown",
        "unit|atm|unit_unknown",
        "kind|damp|malformed_row",
        "kind||malformed_row",
        "throttle|half|malformed_row",
        "engine_temp_c|300|reading_out_of_range",
        "engine_temp_c|warm|bad_number",
        "cranking_rpm|fast|bad_number",
        "strokes|-1|reading_out_of_range",
        "cyl_1|abc|bad_number",
        "cyl_2|1e|bad_number",
        "cyl_3|NaN|bad_number",
        "cyl_4|-3|reading_out_of_range",
      })
  void aBadCellIsRefusedWithItsCodeColumnValueAndARemedy(String column, String value, String code) {
    String cell = value == null ? "" : value;
    Read read = read(file(wideCells(), with(wideCells(), column, cell)));
    RowRefusal refusal = read.onlyRefusal();
    assertEquals(code, refusal.code().code());
    assertEquals(column, refusal.column());
    assertEquals(cell.strip(), refusal.value().strip());
    assertEquals(2, refusal.rowNumber());
    assertEquals(SheetText.FILE, refusal.sourceFile());
    assertTrue(refusal.message().endsWith(refusal.code().remedy()), refusal.message());
    assertTrue(refusal.message().length() > refusal.code().remedy().length() + 5);
    assertEquals(1, read.tests().size(), "the row before it stands");
  }

  @Test
  void aFirstStrokeReadingThatIsNoNumberIsToldUnderItsOwnColumn() {
    RowRefusal refusal = read(file(with(wideCells(), "first_2", "?"))).onlyRefusal();
    assertEquals(RowCode.BAD_NUMBER, refusal.code());
    assertEquals("first_2", refusal.column());
  }

  @Test
  void noReadingAtAllIsAMissingReading() {
    Map<String, String> cells = wideCells();
    cells.replaceAll((column, value) -> column.startsWith("cyl_") ? "" : value);
    RowRefusal refusal = read(file(cells)).onlyRefusal();
    assertEquals(RowCode.MISSING_READING, refusal.code());
    assertEquals("cyl_1", refusal.column());
  }

  @Test
  void everythingWrongWithARowIsToldAtOnce() {
    Map<String, String> cells = with(wideCells(), "tested_at", "soon");
    cells.put("altitude_m", "high");
    cells.put("strokes", "many");
    cells.put("cyl_2", "x");
    RowRefusal refusal = read(file(cells)).onlyRefusal();
    assertEquals(RowCode.BAD_DATE, refusal.code());
    for (String column : List.of("altitude_m", "strokes", "cyl_2")) {
      assertTrue(refusal.message().contains("bad_number in " + column), refusal.message());
    }
  }

  @Test
  void aFileWithoutAnyOdometerColumnIsToldRowByRow() {
    RowRefusal refusal = read(file(without(wideCells(), "odometer_km"::equals))).onlyRefusal();
    assertEquals(RowCode.BAD_NUMBER, refusal.code());
    assertTrue(refusal.message().contains("neither odometer nor engine hours"));
  }

  @Test
  void aFileWithoutReadingColumnsIsToldRowByRow() {
    RowRefusal refusal =
        read(file(without(wideCells(), column -> column.startsWith("cyl_")))).onlyRefusal();
    assertEquals(RowCode.MISSING_READING, refusal.code());
  }

  @Test
  void aBlankRowIsToldAsSuch() {
    Map<String, String> blank = wideCells();
    blank.replaceAll((column, value) -> "");
    Read read = read(file(wideCells(), blank, with(wideCells(), "test_id", "T2")));
    assertEquals(RowCode.MALFORMED_ROW, read.onlyRefusal().code());
    assertEquals(2, read.onlyRefusal().rowNumber());
    assertTrue(read.onlyRefusal().message().startsWith("the row is empty. "));
    assertEquals(List.of(3L), read.tests().get(1).rowNumbers());
  }

  @Test
  void emptyCellsBehindTheHeaderDoNotHarm() {
    String text = file(wideCells());
    assertEquals(
        4, read(text.substring(0, text.length() - 1) + ",,,\n").onlyTest().readings().length);
  }

  @Test
  void moreCellsThanTheHeaderAreRefused() {
    String text = file(wideCells());
    RowRefusal refusal = read(text.substring(0, text.length() - 1) + ",155\n").onlyRefusal();
    assertEquals(RowCode.MALFORMED_ROW, refusal.code());
    assertTrue(refusal.message().startsWith("the row has 23 cells where the header has 22"));
    assertTrue(refusal.value().contains("T1"), "the row can be looked for");
  }

  @Test
  void emptyCellsThatASpreadsheetDroppedAtTheLineEndDoNotHarm() {
    Map<String, String> cells = with(wideCells(), "cyl_5", "");
    cells.put("cyl_6", "");
    String text = file(cells).replace(",,\n", "\n");
    SheetRow row = read(text).onlyTest();
    assertArrayEquals(new double[] {151, 152, 153, 154}, row.readings());
    assertEquals(4, row.cylinderColumns(), "so that the ledger can tell a cut row");
    assertEquals(6, row.fileCylinderColumns());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 5, 12, 18})
  void aRowThatEndsBeforeItsReadingsIsRefused(int cellCount) {
    List<String> cells = List.copyOf(wideCells().values()).subList(0, cellCount);
    String header = file(wideCells()).lines().findFirst().orElseThrow();
    RowRefusal refusal = read(header + "\n" + String.join(",", cells) + "\n").onlyRefusal();
    assertEquals(RowCode.MALFORMED_ROW, refusal.code());
    assertTrue(refusal.message().startsWith("the row ends after " + cellCount + " of 22 cells"));
  }

  @Test
  void oneOpenQuoteCostsOneRow() {
    String row = file(wideCells()).lines().skip(1).findFirst().orElseThrow();
    String broken = row.replace("dry", "\"dry");
    Read read = read(file(wideCells()) + broken + "\n" + row + "\n" + broken + "\n" + row + "\n");
    assertEquals(List.of(2L, 4L), read.refused().stream().map(RowRefusal::rowNumber).toList());
    assertEquals(List.of(1L, 2L, 3L, 4L, 5L), read.accounted());
  }

  @Test
  void aHugeCellIsRefusedWithAShortenedValue() {
    Read read = read(file(with(wideCells(), "remarks", "x".repeat(2_000_000)), wideCells()));
    assertEquals(RowCode.MALFORMED_ROW, read.onlyRefusal().code());
    assertTrue(read.onlyRefusal().value().length() <= 201);
    assertEquals(1, read.tests().size());
  }

  @Test
  void aFileThatBreaksGivesWhatStandsBeforeTheBreakAndOneRefusal() throws IOException {
    List<Map<String, String>> rows = new ArrayList<>();
    Random random = new Random(5);
    for (int i = 0; i < 400; i++) {
      rows.add(with(with(wideCells(), "test_id", "T" + i), "remarks", "" + random.nextLong()));
    }
    ByteArrayOutputStream zipped = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(zipped)) {
      out.write(file(rows).getBytes(StandardCharsets.UTF_8));
    }
    byte[] cut = Arrays.copyOf(zipped.toByteArray(), zipped.size() / 2);
    Read read = read(cut);
    assertTrue(read.tests().size() > 100, "half of the tests, but were " + read.tests().size());
    assertEquals(RowCode.MALFORMED_ROW, read.onlyRefusal().code());
    assertTrue(read.onlyRefusal().message().startsWith("the file cannot be read from here on: "));
    assertEquals(read.tests().size() + 1, read.end().records());
  }

  @Test
  void aFileThatCannotBeOpenedIsOneRefusedRecord() {
    Read read = SheetText.items(SheetFile.unreadable("sheets/b.csv", new EOFException()));
    assertEquals("sheets/b.csv", read.onlyRefusal().sourceFile());
    assertEquals(1, read.end().records());
    assertFalse(read.onlyRefusal().message().contains("null"), read.onlyRefusal().message());
  }

  @Test
  void anEmptyFileAndAHeaderAloneHoldNothing() {
    for (String text : List.of("", file(wideCells()).lines().findFirst().orElseThrow() + "\n")) {
      Read read = read(text);
      assertEquals(0, read.end().records());
      assertTrue(read.accounted().isEmpty());
    }
  }

  @Test
  void nothingComesBehindTheEnd() throws IOException {
    Iterator<SheetItem> items =
        SheetFile.read("a", CsvTable.open(new ByteArrayInputStream(new byte[0])));
    items.next();
    assertFalse(items.hasNext());
    assertThrows(NoSuchElementException.class, items::next);
  }

  @Test
  void aPrintedRowThatWasNeverFilledInIsOneMissingReading() {
    Map<String, String> cells = wideCells();
    for (String column : List.of("tested_at", "odometer_km", "cyl_1", "cyl_2", "cyl_3", "cyl_4")) {
      cells.put(column, "");
    }
    RowRefusal refusal = read(file(cells)).onlyRefusal();
    assertEquals(RowCode.MISSING_READING, refusal.code());
    assertTrue(refusal.message().contains("a printed sheet that was not used"), refusal.message());
    assertTrue(refusal.message().endsWith(RowCode.MISSING_READING.remedy()), refusal.message());
  }

  @Test
  void aPrintedRowWithItsReadingsButNoDateIsStillAskedForTheDate() {
    Map<String, String> cells = wideCells();
    cells.put("tested_at", "");
    cells.put("odometer_km", "");
    assertEquals(RowCode.BAD_DATE, read(file(cells)).onlyRefusal().code());
  }
}

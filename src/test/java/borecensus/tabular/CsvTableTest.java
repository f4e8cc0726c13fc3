package borecensus.tabular;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.zip.GZIPOutputStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTableTest {
  private static final String WIDE_HEADER =
      "test_id,vehicle_id,tested_at,odometer_km,gauge_id,unit,kind,remarks,cyl_1,cyl_2,cyl_3\n";

  @Test
  void readsCellsInHeaderOrderAndNumbersRecordsFromOne() throws IOException {
    CsvTable table = open("a,b\n1,2\n3,4\n");
    assertEquals(List.of("a", "b"), table.header().names());
    assertEquals(new TableRecord(1, List.of("1", "2")), table.next());
    assertEquals(new TableRecord(2, List.of("3", "4")), table.next());
    assertNull(table.next());
  }

  @Test
  void headerNamesAreTrimmedAndLowerCase() throws IOException {
    TableHeader header = open(" Test_ID , CYL_1\n").header();
    assertEquals(List.of("test_id", "cyl_1"), header.names());
    assertEquals(1, header.indexOf("cyl_1"));
    assertEquals(TableHeader.ABSENT, header.indexOf("cyl_2"));
  }

  @Test
  void ofTwoColumnsWithOneNameTheFirstCounts() throws IOException {
    assertEquals(0, open("unit,unit\n").header().indexOf("unit"));
  }

  @Test
  void aByteOrderMarkIsNoPartOfTheFirstName() throws IOException {
    assertEquals(List.of("a", "b"), open("\uFEFFa,b\n1,2\n").header().names());
  }

  @Test
  void aByteOrderMarkBeforeAQuotedNameIsNoPartOfItEither() throws IOException {
    assertEquals(List.of("a", "b"), open("\uFEFF\"a\",\"b\"\n1,2\n").header().names());
  }

  @Test
  void utf16IsReadByItsMarkInBothByteOrders() throws IOException {
    for (Charset charset : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
      CsvTable table = open("\uFEFFid\tremarks\nT1\tgegl\u00FCht\n".getBytes(charset));
      assertEquals(List.of("id", "remarks"), table.header().names());
      assertEquals(List.of("T1", "gegl\u00FCht"), table.next().cells());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n", "\r"})
  void everyKindOfLineEndEndsARecord(String lineEnd) throws IOException {
    String text = String.join(lineEnd, "a,b", "1,2", "", "3,4", "");
    assertEquals(List.of(List.of("1", "2"), List.of("3", "4")), rows(text));
  }

  @Test
  void theLastLineNeedsNoLineEnd() throws IOException {
    assertEquals(List.of(List.of("1", "2")), rows("a,b\n1,2"));
  }

  @Test
  void quotedCellsHoldCommasQuotesAndLineBreaks() throws IOException {
    assertEquals(
        List.of(List.of("1", "a, b", "say \"x\"", "top\nbottom"), List.of("2", "", "", "")),
        rows("a,b,c,d\r\n1,\"a, b\",\"say \"\"x\"\"\",\"top\r\nbottom\"\r\n2,,,\r\n"));
  }

  @Test
  void aQuoteInsideAPlainCellIsACharacter() throws IOException {
    assertEquals(List.of(List.of("12\" wheel", "2")), rows("a,b\n12\" wheel,2\n"));
  }

  @Test
  void textBehindAClosingQuoteStaysInItsCell() throws IOException {
    assertEquals(
        List.of(List.of("5 dial", "2"), List.of("x", "y")), rows("a,b\n\"5\" dial,2\nx,y\n"));
  }

  @Test
  void blanksBehindAClosingQuoteDoNotHarm() throws IOException {
    assertEquals(List.of(List.of("5,1 ", "2")), rows("a,b\n\"5,1\" ,2\n"));
  }

  @Test
  void semicolonsAreFoundAndBringTheDecimalComma() throws IOException {
    CsvTable table = open("a;b\n1,5;2\n");
    assertEquals(DecimalMark.COMMA, table.decimalMark());
    assertEquals(List.of("1,5", "2"), table.next().cells());
  }

  @Test
  void separatorsInsideQuotedNamesDoNotCount() throws IOException {
    assertEquals(List.of("x,y,z,u", "b"), open("\"x,y,z,u\";b\n").header().names());
  }

  @Test
  void tabsAreFoundAndKeepTheDecimalPoint() throws IOException {
    CsvTable table = open("a\tb\n1.5\t2\n");
    assertEquals(DecimalMark.POINT, table.decimalMark());
    assertEquals(List.of("1.5", "2"), table.next().cells());
  }

  @ParameterizedTest
  @ValueSource(strings = {"sep=;\r\n", "SEP=;\n", "\"sep=;\"\n", "\uFEFFsep=;\n"})
  void aSeparatorLineIsFollowedAndIsNoRecord(String line) throws IOException {
    CsvTable table = open(line + "a;b\n1,5;x\n");
    assertEquals(List.of("a", "b"), table.header().names());
    assertEquals(new TableRecord(1, List.of("1,5", "x")), table.next());
  }

  @Test
  void aSeparatorLineMayNameTheTab() throws IOException {
    assertEquals(List.of("a", "b"), open("sep=\t\na\tb\n").header().names());
  }

  @Test
  void emptyTrailingColumnsAreCells() throws IOException {
    assertEquals(List.of(List.of("1", "2", "", "")), rows("a,b,,\n1,2,,\n"));
  }

  @Test
  void raggedRecordsComeAsTheyAre() throws IOException {
    assertEquals(List.of(List.of("1"), List.of("1", "2", "3")), rows("a,b\n1\n1,2,3\n"));
  }

  @Test
  void gzipIsKnownByItsContent() throws IOException {
    CsvTable table = open(gzip("\uFEFFa;b\n1;2\n"));
    assertEquals(List.of("a", "b"), table.header().names());
    assertEquals(List.of("1", "2"), table.next().cells());
  }

  @Test
  void severalGzipMembersAreOneFile() throws IOException {
    ByteArrayOutputStream both = new ByteArrayOutputStream();
    both.write(gzip("a,b\n1,2\n"));
    both.write(gzip("3,4\n"));
    CsvTable table = open(both.toByteArray());
    assertEquals(List.of("1", "2"), table.next().cells());
    assertEquals(List.of("3", "4"), table.next().cells());
    assertNull(table.next());
  }

  @Test
  void aTruncatedGzipGivesWhatStandsBeforeTheBreakAndThenFails() throws IOException {
    Random random = new Random(7);
    StringBuilder text = new StringBuilder("a,b\n");
    for (int i = 0; i < 2000; i++) {
      text.append(i).append(',').append(random.nextInt()).append('\n');
    }
    byte[] whole = gzip(text.toString());
    CsvTable table = open(Arrays.copyOf(whole, whole.length * 3 / 4));
    assertEquals("0", table.next().cells().get(0));
    long last = 1;
    IOException failure = null;
    while (failure == null) {
      try {
        last = table.next().rowNumber();
      } catch (IOException broken) {
        failure = broken;
      }
    }
    assertTrue(last > 1400 && last < 1600, "three quarters can be read, but were " + last);
    assertThrows(IOException.class, table::next, "the break stays a break");
  }

  @Test
  void aCutInsideAnOpenQuoteStillGivesTheLinesBeforeIt() throws IOException {
    Random random = new Random(3);
    StringBuilder text = new StringBuilder("a,b\n1,\"open\n");
    for (int i = 2; i < 3000; i++) {
      text.append(i).append(',').append(random.nextInt()).append('\n');
    }
    byte[] whole = gzip(text.toString());
    CsvTable table = open(Arrays.copyOf(whole, whole.length / 2));
    assertEquals(List.of("1", "open"), table.next().cells());
    assertEquals("2", table.next().cells().get(0));
  }

  @Test
  void anUnclosedQuoteCostsOneRow() throws IOException {
    List<List<String>> rows =
        rows(WIDE_HEADER + wide("T1", "\"not closed") + wide("T2", "fine") + wide("T3", "fine"));
    assertEquals(3, rows.size());
    assertTrue(rows.get(0).size() < 11, "the row itself does not fit the header");
    assertEquals(11, rows.get(1).size());
    assertEquals("T3", rows.get(2).get(0));
  }

  @Test
  void anUnclosedQuoteInTheLastColumnSwallowsNothing() throws IOException {
    assertEquals(
        List.of(List.of("1", "bad"), List.of("2", "fine"), List.of("3", "fine")),
        rows("id,remarks\n1,\"bad\n2,fine\n3,fine\n"));
  }

  @Test
  void severalUnclosedQuotesCostARowEach() throws IOException {
    List<List<String>> rows =
        rows(
            WIDE_HEADER
                + wide("T1", "\"open")
                + wide("T2", "fine")
                + wide("T3", "\"open")
                + wide("T4", "\"open")
                + wide("T5", "fine"));
    assertEquals(List.of("T1", "T2", "T3", "T4", "T5"), rows.stream().map(r -> r.get(0)).toList());
    assertEquals(List.of("T2", "T5"), whole(rows));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"good, quoted\"",
        "\"\"",
        "\"\"\"hm\"\"\"",
        "\",\"",
        "wheel 12\"",
        "\"two\nlines\"",
        "\" \""
      })
  void anUnclosedQuoteDoesNotReachALaterQuotedRemark(String later) throws IOException {
    List<List<String>> rows =
        rows(
            WIDE_HEADER
                + wide("T1", "\"open")
                + wide("T2", "fine")
                + wide("T3", later)
                + wide("T4", "fine"));
    assertEquals(List.of("T2", "T3", "T4"), whole(rows));
    assertEquals(4, rows.size());
  }

  @Test
  void anUnclosedQuoteBeforeMegabytesOfRowsCostsOneRow() throws IOException {
    StringBuilder text = new StringBuilder(WIDE_HEADER).append(wide("T0", "\"open"));
    int rows = 40_000;
    for (int i = 1; i <= rows; i++) {
      text.append(wide("T" + i, "fine"));
    }
    assertEquals(rows + 1, rows(text.toString()).size());
  }

  @Test
  void anUnclosedQuoteInTheHeaderLeavesTheRecordsAlone() throws IOException {
    CsvTable table = open("a,\"b\n1,2\n3,4\n");
    assertEquals(List.of("a", "b"), table.header().names());
    assertEquals(List.of("1", "2"), table.next().cells());
  }

  @Test
  void aHugeCellCostsOneRow() throws IOException {
    String huge = "x".repeat(3_000_000);
    List<List<String>> rows = rows("a,b\n1,2\n2," + huge + "\n3,4\n");
    assertEquals(3, rows.size());
    assertEquals(1, rows.get(1).size(), "so that it fits no header");
    assertEquals(List.of("3", "4"), rows.get(2));
  }

  @Test
  void aHugeQuotedTextOfManyLinesIsGivenUp() throws IOException {
    String huge = "line\n".repeat(300_000);
    List<List<String>> rows = rows("a,b,c\n1,\"" + huge + "\",3\n9,8,7\n");
    assertEquals(List.of("9", "8", "7"), rows.get(rows.size() - 1));
  }

  @Test
  void aHeaderAloneHasNoRecords() throws IOException {
    assertTrue(rows("a,b\n").isEmpty());
    assertTrue(rows("a,b").isEmpty());
  }

  @Test
  void anEmptyFileHasNeitherNamesNorRecords() throws IOException {
    for (String text : List.of("", "\n\n", "\uFEFF", "sep=;\n")) {
      CsvTable table = open(text);
      assertTrue(table.header().names().isEmpty(), text);
      assertNull(table.next());
    }
  }

  @Test
  void rowsOfSeparatorsOnlyAreRecords() throws IOException {
    assertEquals(List.of(List.of("", ""), List.of("1", "2")), rows("a,b\n,\n1,2\n"));
  }

  @Test
  void bytesThatAreNoTextDoNotStopTheFile() throws IOException {
    byte[] bytes = "a,b\n1,\u00E4\n2,x\n".getBytes(StandardCharsets.ISO_8859_1);
    CsvTable table = open(bytes);
    assertEquals("1", table.next().cells().get(0));
    assertEquals(List.of("2", "x"), table.next().cells());
  }

  @Property(tries = 200)
  void whatIsWrittenByTheRulesIsReadBack(
      @ForAll @Size(min = 1, max = 8) List<@Size(3) List<@CsvCell String>> table)
      throws IOException {
    String text = "a,b,c\n" + table.stream().map(CsvTableTest::line).collect(Collectors.joining());
    assertEquals(table, rows(text));
  }

  @Property(tries = 100)
  void everyOtherRowSurvivesOpenQuotesAnywhere(@ForAll @IntRange(max = 255) int openQuotes)
      throws IOException {
    StringBuilder text = new StringBuilder(WIDE_HEADER);
    List<String> expected = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      boolean open = (openQuotes >> i & 1) == 1;
      text.append(wide("T" + i, open ? "\"open" : i % 2 == 0 ? "\"quoted, well\"" : "plain"));
      if (!open) {
        expected.add("T" + i);
      }
    }
    List<List<String>> rows = rows(text.toString());
    assertEquals(8, rows.size());
    assertEquals(expected, whole(rows));
  }

  private static String line(List<String> cells) {
    return cells.stream()
        .map(cell -> '"' + cell.replace("\"", "\"\"") + '"')
        .collect(Collectors.joining(",", "", "\n"));
  }

  private static String wide(String testId, String remarks) {
    return testId + ",V1,2026-01-02,1000,G1,psi,dry," + remarks + ",150,151,152\n";
  }

  /** Ids of the rows that fit the header. */
  private static List<String> whole(List<List<String>> rows) {
    return rows.stream().filter(row -> row.size() == 11).map(row -> row.get(0)).toList();
  }

  private static List<List<String>> rows(String text) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (CsvTable table = open(text)) {
      for (TableRecord r = table.next(); r != null; r = table.next()) {
        rows.add(r.cells());
        assertEquals(rows.size(), r.rowNumber());
        assertFalse(r.cells().isEmpty());
      }
    }
    return rows;
  }

  private static CsvTable open(String text) throws IOException {
    return open(text.getBytes(StandardCharsets.UTF_8));
  }

  private static CsvTable open(byte[] bytes) throws IOException {
    return CsvTable.open(new ByteArrayInputStream(bytes));
  }

  private static byte[] gzip(String text) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
    return bytes.toByteArray();
  }
}

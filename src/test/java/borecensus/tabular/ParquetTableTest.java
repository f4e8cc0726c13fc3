package borecensus.tabular;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.parquet.io.LocalInputFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ParquetTableTest {
  private static final String SHEETS =
      """
      SELECT * FROM (VALUES
        ('T1', 7::INTEGER, 150.5::DOUBLE, 12.25::FLOAT, 11.50::DECIMAL(6,2),
         DATE '2026-03-31', TIMESTAMP '2026-03-31 14:05:06', 'a, "b"', NULL::DOUBLE),
        ('T2', -1, 0, 0.1, 123456789.25::DECIMAL(20,2),
         DATE '1969-12-31', TIMESTAMP '1969-12-31 23:59:59.5', '', 3.0))
      AS sheets(test_id, odometer_km, cyl_1, cyl_2, cyl_3, done_on, tested_at, remarks, cyl_4)
      """;

  @TempDir Path folder;

  @Test
  void everyTypeReadsAsTheCsvOfTheSameContent() throws Exception {
    List<List<String>> parquet = rows(parquet(SHEETS));
    List<List<String>> csv = csvRows(SHEETS);
    assertEquals(csv.size(), parquet.size());
    for (int row = 0; row < csv.size(); row++) {
      for (int column = 0; column < csv.get(row).size(); column++) {
        assertSameCell(csv.get(row).get(column), parquet.get(row).get(column));
      }
    }
  }

  private static void assertSameCell(String csv, String parquet) {
    if (csv.matches("-?[0-9.]+")) {
      assertEquals(
          NumberText.parse(csv, DecimalMark.POINT), NumberText.parse(parquet, DecimalMark.POINT));
    } else if (csv.matches("\\d{4}-.*")) {
      assertEquals(DateText.parseDateTime(csv), DateText.parseDateTime(parquet));
    } else {
      assertEquals(csv, parquet);
    }
  }

  @Test
  void namesComeInFileOrderAndThePointIsTheMark() throws Exception {
    try (ParquetTable table = open(parquet("SELECT 1 AS Cyl_1, 'x' AS test_id"))) {
      assertEquals(List.of("cyl_1", "test_id"), table.header().names());
      assertEquals(DecimalMark.POINT, table.decimalMark());
    }
  }

  @Test
  void nullAndNaNAreEmptyCells() throws Exception {
    assertEquals(
        List.of(List.of("", "", "", "")),
        rows(
            parquet(
                "SELECT NULL AS a, 'NaN'::DOUBLE AS b, 'NaN'::FLOAT AS c, NULL::VARCHAR AS d")));
  }

  @Test
  void infinityIsNotTakenForANumber() throws Exception {
    String cell = rows(parquet("SELECT 'Infinity'::DOUBLE AS a")).get(0).get(0);
    assertThrows(
        NumberFormatException.class, () -> NumberText.parse(cell, DecimalMark.POINT), cell);
  }

  @Test
  void wholeNumbersStandWithoutAPointSoThatNumberedIdsMatch() throws Exception {
    assertEquals(
        List.of(List.of("1042", "-3", "0", "9007199254740993")),
        rows(
            parquet(
                "SELECT 1042.0::DOUBLE AS a, -3::FLOAT AS b, '-0.0'::DOUBLE AS c,"
                    + " 9007199254740993::BIGINT AS d")));
  }

  @Test
  void timestampsOfEveryUnitAreReadInUtc() throws Exception {
    List<String> cells =
        rows(parquet(
                "SELECT TIMESTAMP_S '2026-03-31 14:05:06' AS a,"
                    + " TIMESTAMP_MS '2026-03-31 14:05:06' AS b,"
                    + " TIMESTAMP_NS '2026-03-31 14:05:06' AS c,"
                    + " TIMESTAMPTZ '2026-03-31 16:05:06+02' AS d"))
            .get(0);
    for (String cell : cells) {
      assertEquals(LocalDateTime.of(2026, 3, 31, 14, 5, 6), DateText.parseDateTime(cell));
    }
  }

  @Test
  void rowsAreNumberedAcrossRowGroups() throws Exception {
    Path file = folder.resolve("groups.parquet");
    execute(
        "COPY (SELECT range AS a FROM range(5000)) TO '"
            + file
            + "' (FORMAT parquet, ROW_GROUP_SIZE 2048)");
    List<List<String>> rows = rows(file);
    assertEquals(5000, rows.size());
    assertEquals(List.of("4999"), rows.get(4999));
  }

  @Test
  void aFileWithoutRowsHasNamesOnly() throws Exception {
    try (ParquetTable table = open(parquet("SELECT 1 AS a WHERE false"))) {
      assertEquals(List.of("a"), table.header().names());
      assertNull(table.next());
    }
  }

  @Test
  void aFileThatIsNoParquetIsToldWhenItIsOpened() throws IOException {
    for (String text : List.of("", "PAR1", "test_id,cyl_1\nT1,150\n", "PAR1" + "x".repeat(99))) {
      Path file = Files.writeString(folder.resolve("no.parquet"), text);
      IOException refused = assertThrows(IOException.class, () -> open(file));
      assertNotNull(refused.getMessage());
    }
  }

  @Test
  void aFileThatWasCutIsToldWhenItIsOpened() throws Exception {
    byte[] bytes = Files.readAllBytes(parquet(SHEETS));
    Path cut = Files.write(folder.resolve("cut.parquet"), Arrays.copyOf(bytes, bytes.length / 2));
    assertEquals(
        "it is not a readable Parquet file",
        assertThrows(IOException.class, () -> open(cut)).getMessage());
  }

  @Test
  void dataDamagedInTheMiddleAreToldWhenTheyAreRead() throws Exception {
    Path file = parquet("SELECT range AS a, 'r' || range AS b FROM range(1000)");
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, 4, 400, (byte) 0x5A);
    Files.write(file, bytes);
    try (ParquetTable table = open(file)) {
      IOException broken = assertThrows(IOException.class, table::next);
      assertNotNull(broken.getMessage());
    }
  }

  private static List<List<String>> rows(Path file) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (ParquetTable table = open(file)) {
      for (TableRecord r = table.next(); r != null; r = table.next()) {
        rows.add(r.cells());
        assertEquals(rows.size(), r.rowNumber());
      }
    }
    return rows;
  }

  private static ParquetTable open(Path file) throws IOException {
    return ParquetTable.open(new LocalInputFile(file));
  }

  private Path parquet(String select) throws SQLException {
    Path file = folder.resolve("table.parquet");
    execute("COPY (" + select + ") TO '" + file + "' (FORMAT parquet)");
    return file;
  }

  private List<List<String>> csvRows(String select) throws Exception {
    Path file = folder.resolve("table.csv");
    execute("COPY (" + select + ") TO '" + file + "' (FORMAT csv, HEADER)");
    List<List<String>> rows = new ArrayList<>();
    try (CsvTable table = CsvTable.open(Files.newInputStream(file))) {
      for (TableRecord r = table.next(); r != null; r = table.next()) {
        rows.add(r.cells());
      }
    }
    return rows;
  }

  private static void execute(String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute("SET TimeZone = 'UTC'");
      statement.execute(sql);
    }
  }
}

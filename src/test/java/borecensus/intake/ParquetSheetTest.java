package borecensus.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.RowCode;
import borecensus.intake.SheetText.Read;
import borecensus.tabular.CsvTable;
import borecensus.tabular.ParquetTable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import org.apache.parquet.io.LocalInputFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ParquetSheetTest {
  private static final String WIDE =
      """
      SELECT 'T' || range AS test_id, 100 + range AS vehicle_id, 7.0::DOUBLE AS gauge_id,
        DATE '2025-01-01' + range::INTEGER AS tested_at, (1000 * range)::BIGINT AS odometer_km,
        'bar' AS unit, 'dry' AS kind, NULL::DOUBLE AS altitude_m,
        12.5::FLOAT AS cyl_1, 12.25::DECIMAL(5,2) AS cyl_2,
        CASE WHEN range = 2 THEN NULL ELSE 12.0::DOUBLE END AS cyl_3, 0::INTEGER AS cyl_4
      FROM range(1, 4)
      """;

  private static final String LONG =
      """
      SELECT 'T1' AS test_id, 'V1' AS vehicle_id, 'G1' AS gauge_id,
        TIMESTAMP '2025-01-01 10:00:00' AS tested_at, 1000 AS odometer_km, 'bar' AS unit,
        'dry' AS kind, range::DOUBLE AS cylinder,
        CASE WHEN range = 2 THEN 'NaN'::DOUBLE ELSE 12 + range / 10.0 END AS pressure
      FROM range(1, 5)
      """;

  @TempDir Path folder;

  @Test
  void aWideParquetSheetSaysWhatTheCsvSays() throws Exception {
    Read parquet = parquet(write(WIDE, "parquet"));
    assertEquals(contents(csv(write(WIDE.replace("7.0::DOUBLE", "7"), "csv"))), contents(parquet));
    assertEquals(3, parquet.tests().size());
    assertEquals("7", parquet.tests().get(0).gaugeId());
    assertTrue(Double.isNaN(parquet.tests().get(1).readings()[2]));
  }

  @Test
  void aLongParquetSheetSaysWhatTheCsvSays() throws Exception {
    Read parquet = parquet(write(LONG, "parquet"));
    assertEquals(
        contents(csv(write(LONG.replace("'NaN'::DOUBLE", "NULL"), "csv"))), contents(parquet));
    assertEquals(List.of(1L, 2L, 3L, 4L), parquet.onlyTest().rowNumbers());
  }

  @Test
  void aParquetSheetWithDamagedDataIsOneRefusalAndAnEnd() throws Exception {
    Path file = write(WIDE, "parquet");
    byte[] bytes = Files.readAllBytes(file);
    Arrays.fill(bytes, 4, 200, (byte) 0x5A);
    Files.write(file, bytes);
    Read read = parquet(file);
    assertEquals(RowCode.MALFORMED_ROW, read.onlyRefusal().code());
    assertTrue(read.onlyRefusal().message().startsWith("the file cannot be read from here on: "));
    assertEquals(read.end().records(), read.accounted().size());
  }

  private static List<String> contents(Read read) {
    assertEquals(List.of(), read.refused());
    return read.tests().stream().map(SheetRow::content).toList();
  }

  private static Read parquet(Path file) throws IOException {
    return SheetText.items(SheetFile.read("a", ParquetTable.open(new LocalInputFile(file))));
  }

  private static Read csv(Path file) throws IOException {
    return SheetText.items(SheetFile.read("a", CsvTable.open(Files.newInputStream(file))));
  }

  private Path write(String select, String format) throws SQLException {
    Path file = folder.resolve("sheet." + format);
    String header = format.equals("csv") ? ", HEADER" : "";
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute("COPY (" + select + ") TO '" + file + "' (FORMAT " + format + header + ")");
    }
    return file;
  }
}

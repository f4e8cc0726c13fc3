package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.PressureUnit;
import borecensus.domain.RowCode;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.RowPlace;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetItem;
import borecensus.intake.SheetRow;
import borecensus.night.LedgerRows.FileKey;
import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.WholeFile;
import borecensus.night.parquet.ColumnFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.schema.Type;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A ledger batch written straight to its files, beside what Spark's own writer makes of it. */
class LedgerFileTest extends OnLocalSpark {
  private static final String HOSTILE = "=cmd|' /C'!A0\u0000\r\n<script>\uD83D\uDE97\uE000\"',;";
  private static final FileKey KEY = new FileKey(1L << 32, "sheets/größer.csv", "digest");
  private static final SheetItem REFUSED =
      new SheetItem.Refused(
          new RowRefusal(KEY.sourceFile(), 7, RowCode.BAD_DATE, "tested_at", HOSTILE, "no date"));
  private static final SheetItem REPEATED =
      new SheetItem.Repeated(new RowPlace(KEY.sourceFile(), 8));
  private static final SheetItem END = new SheetItem.End(9, List.of("colour", HOSTILE));

  @TempDir private Path folder;
  private Path batch;

  @BeforeEach
  void makeTheBatch() throws IOException {
    batch = Files.createDirectories(folder.resolve("batch"));
  }

  private static SheetItem test(String remarks, double[] readings, double[] firstReadings) {
    return new SheetItem.Test(
        new SheetRow(
            KEY.sourceFile(),
            List.of(5L, Long.MAX_VALUE),
            "T1",
            "V1",
            "",
            LocalDateTime.of(1969, 12, 31, 23, 59, 59, 999_999_000),
            1e-300,
            Double.NaN,
            "S1",
            -0.0,
            Double.MAX_VALUE,
            Double.NaN,
            "G1",
            PressureUnit.KGF_CM2,
            SheetKind.WET,
            Throttle.CLOSED,
            20.5,
            250,
            6,
            "",
            remarks,
            readings,
            firstReadings,
            4,
            16));
  }

  /** The rows of {@link #test} and the others as Spark's own rows. */
  private static List<Row> expected() {
    return List.of(
        row(
            Map.ofEntries(
                cell(LedgerField.KIND, "test"),
                cell(LedgerField.ROW_NUMBERS, new Long[] {5L, Long.MAX_VALUE}),
                cell(LedgerField.TEST_ID, "T1"),
                cell(LedgerField.VEHICLE_ID, "V1"),
                cell(LedgerField.ENGINE_SERIAL, ""),
                cell(
                    LedgerField.TESTED_AT, LocalDateTime.of(1969, 12, 31, 23, 59, 59, 999_999_000)),
                cell(LedgerField.ODOMETER_KM, 1e-300),
                cell(LedgerField.ENGINE_HOURS, Double.NaN),
                cell(LedgerField.SITE_ID, "S1"),
                cell(LedgerField.ALTITUDE_M, -0.0),
                cell(LedgerField.STATION_PRESSURE_HPA, Double.MAX_VALUE),
                cell(LedgerField.QNH_HPA, Double.NaN),
                cell(LedgerField.GAUGE_ID, "G1"),
                cell(LedgerField.UNIT, "kgf_cm2"),
                cell(LedgerField.SHEET_KIND, "wet"),
                cell(LedgerField.THROTTLE, "closed"),
                cell(LedgerField.ENGINE_TEMP_C, 20.5),
                cell(LedgerField.CRANKING_RPM, 250.0),
                cell(LedgerField.STROKES, 6.0),
                cell(LedgerField.ADAPTOR_ID, ""),
                cell(LedgerField.REMARKS, HOSTILE),
                cell(LedgerField.READINGS, new Double[] {11.5, Double.NaN, 0.0}),
                cell(LedgerField.FIRST_READINGS, new Double[0]),
                cell(LedgerField.CYLINDER_COLUMNS, 4),
                cell(LedgerField.FILE_CYLINDER_COLUMNS, 16))),
        row(
            Map.of(
                LedgerField.KIND,
                "refused",
                LedgerField.ROW_NUMBERS,
                new Long[] {7L},
                LedgerField.CODE,
                RowCode.BAD_DATE.code(),
                LedgerField.COLUMN,
                "tested_at",
                LedgerField.VALUE,
                HOSTILE,
                LedgerField.MESSAGE,
                "no date")),
        row(Map.of(LedgerField.KIND, "repeated", LedgerField.ROW_NUMBERS, new Long[] {8L})),
        row(
            Map.of(
                LedgerField.KIND,
                "file",
                LedgerField.CONTENT_DIGEST,
                "digest",
                LedgerField.RECORDS,
                9L,
                LedgerField.UNKNOWN_COLUMNS,
                new String[] {"colour", HOSTILE})));
  }

  private static Map.Entry<LedgerField, Object> cell(LedgerField field, Object value) {
    return Map.entry(field, value);
  }

  private static Row row(Map<LedgerField, Object> told) {
    Object[] cells = new Object[LedgerField.values().length];
    told.forEach((field, value) -> cells[field.ordinal()] = value);
    cells[LedgerField.FILE_ORDER.ordinal()] = KEY.fileOrder();
    cells[LedgerField.SOURCE_FILE.ordinal()] = KEY.sourceFile();
    return RowFactory.create(cells);
  }

  private static List<SheetItem> items() {
    return List.of(
        test(HOSTILE, new double[] {11.5, Double.NaN, 0}, new double[0]), REFUSED, REPEATED, END);
  }

  private long write(List<SheetItem> items) throws IOException {
    return LedgerFile.in(batch)
        .write(
            0,
            out -> {
              LedgerRows rows = new LedgerRows(KEY, out);
              for (SheetItem item : items) {
                rows.write(item);
              }
            });
  }

  private Path bySpark() {
    Path bySpark = folder.resolve("by-spark");
    spark
        .createDataFrame(expected(), LedgerField.schema())
        .coalesce(1)
        .write()
        .parquet(Folders.target(bySpark));
    return bySpark;
  }

  private static List<Type> fields(Path table) throws IOException {
    try (Stream<Path> files = Files.list(table)) {
      Path file = files.filter(f -> f.toString().endsWith(".parquet")).findFirst().orElseThrow();
      try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(file))) {
        return reader.getFileMetaData().getSchema().getFields();
      }
    }
  }

  private static Dataset<Row> read(Path... folders) {
    return spark
        .read()
        .schema(LedgerField.schema())
        .parquet(Stream.of(folders).map(Folders::source).toArray(String[]::new));
  }

  /** As text, in which one NaN within a list is like another. */
  private static List<String> told(Dataset<Row> rows) {
    return rows.collectAsList().stream().map(Row::toString).toList();
  }

  @Test
  void theColumnsAreThoseThatSparkWouldStore() throws IOException {
    assertEquals(4, write(items()));
    assertEquals(fields(bySpark()), fields(batch));
  }

  @Test
  void rowsReadAsThoseThatSparkWrites() throws IOException {
    write(items());
    Path bySpark = bySpark();
    assertEquals(told(read(bySpark)), told(read(batch)));
    assertEquals(4, read(bySpark).count());
    assertEquals(8, read(bySpark, batch).count());
  }

  @Test
  void aColumnStoreReadsBothAlike() throws IOException, SQLException {
    write(items());
    String both = "SELECT * FROM read_parquet('%s/*.parquet')";
    String differing =
        "SELECT count(*) FROM ((%1$s EXCEPT ALL %2$s) UNION ALL (%2$s EXCEPT ALL %1$s))"
            .formatted(both.formatted(batch), both.formatted(bySpark()));
    try (Connection store = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = store.createStatement()) {
      assertEquals(0, number(statement, differing));
      assertEquals(4, number(statement, "SELECT count(*) FROM (" + both.formatted(batch) + ")"));
      assertEquals(
          11.5, number(statement, "SELECT max(readings[1]) FROM (" + both.formatted(batch) + ")"));
    }
  }

  private static double number(Statement statement, String query) throws SQLException {
    try (ResultSet answer = statement.executeQuery(query)) {
      assertTrue(answer.next());
      return answer.getDouble(1);
    }
  }

  @Test
  void aFileOfSeveralRowGroupsReadsWhole() throws IOException {
    write(items());
    Path parted = Files.createDirectories(folder.resolve("parted"));
    Path file = parted.resolve("part.parquet");
    ParquetProperties twoRows = ParquetProperties.builder().withRowGroupRowCountLimit(2).build();
    try (ColumnFile out = new ColumnFile(file, LedgerSchema.parquet(), twoRows)) {
      LedgerRows rows = new LedgerRows(KEY, out);
      for (int time = 0; time < 3; time++) {
        for (SheetItem item : items()) {
          rows.write(item);
        }
      }
      out.end();
    }
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(file))) {
      assertEquals(6, reader.getRowGroups().size());
    }
    List<String> once = told(read(batch));
    assertEquals(Stream.of(once, once, once).flatMap(List::stream).toList(), told(read(parted)));
  }

  @Test
  void aTaskThatIsRepeatedPutsTheSameBytesInTheSamePlace() throws IOException {
    write(items());
    byte[] first = Files.readAllBytes(LedgerFile.in(batch).path(0));
    write(items());
    assertArrayEquals(first, Files.readAllBytes(LedgerFile.in(batch).path(0)));
    assertEquals(1, read(batch).inputFiles().length);
  }

  @Test
  void aTaskThatBreaksOffLeavesTheWholeFileOfAnEarlierOne() throws IOException {
    write(items());
    byte[] whole = Files.readAllBytes(LedgerFile.in(batch).path(0));
    IOException told =
        assertThrows(
            IOException.class,
            () ->
                LedgerFile.in(batch)
                    .write(
                        0,
                        out -> {
                          new LedgerRows(KEY, out).write(END);
                          throw new IOException("disk gone");
                        }));
    assertEquals("disk gone", told.getMessage());
    WholeFile.clear(batch);
    assertArrayEquals(whole, Files.readAllBytes(LedgerFile.in(batch).path(0)));
    assertEquals(1, read(batch).inputFiles().length);
  }

  @Test
  void aSecondCellInOneColumnOfARowIsRefused() {
    IllegalStateException refused =
        assertThrows(
            IllegalStateException.class,
            () ->
                LedgerFile.in(batch)
                    .write(
                        0,
                        out -> {
                          out.whole(LedgerField.RECORDS.ordinal(), 1);
                          out.whole(LedgerField.RECORDS.ordinal(), 2);
                        }));
    assertEquals("a row has two cells in column records", refused.getMessage());
  }
}

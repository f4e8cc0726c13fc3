package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.WholeFile;
import borecensus.night.parquet.TableFile;
import borecensus.night.parquet.TableRow;
import borecensus.publish.StoreException;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.schema.Type;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Tables written straight to their files, beside what Spark's own writer makes of the same rows.
 */
class TableWriterTest extends OnLocalSpark {
  private static final String HOSTILE = "=cmd|' /C'!A0\u0000\r\n<script>\uD83D\uDE97\uE000\"',;";

  @TempDir private Path folder;

  @Test
  void everyTableHasTheSchemaThatSparkWouldGiveIt() throws IOException {
    for (Table table : Table.values()) {
      new TableWriter(folder).write(table, List.of());
      Dataset<Row> none = spark.createDataFrame(List.of(), TableSchemas.of(table));
      Path bySpark = folder.resolve("by-spark-" + table.tableName());
      none.write().parquet(Folders.target(bySpark));
      Path direct = folder.resolve(table.tableName());
      assertEquals(fields(bySpark), fields(direct), table.name());
      // What is read from files may always be absent, the elements of lists too.
      assertEquals(
          spark.read().parquet(Folders.source(bySpark)).schema(),
          spark.read().parquet(Folders.source(direct)).schema());
      assertEquals(
          TableSchemas.of(table).asNullable(),
          spark.read().parquet(Folders.source(direct)).schema());
    }
  }

  private static List<Type> fields(Path table) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(table, "*.parquet")) {
      try (ParquetFileReader reader =
          ParquetFileReader.open(Folders.parquet(files.iterator().next()))) {
        return reader.getFileMetaData().getSchema().getFields();
      }
    }
  }

  private static List<Row> readings() {
    return List.of(
        TableSchemas.row(
            HOSTILE,
            "V1",
            "",
            null,
            LocalDateTime.of(1969, 12, 31, 23, 59, 59, 999_999_000),
            1e-300,
            Double.NaN,
            Integer.MIN_VALUE,
            "G1",
            "S1",
            Double.POSITIVE_INFINITY,
            "site",
            0.0,
            -0.0,
            null,
            Double.MAX_VALUE,
            -1.5,
            true,
            new String[] {HOSTILE, ""},
            "a/b.csv",
            Long.MAX_VALUE),
        TableSchemas.row(
            null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            null, null, null, null, null, null, null),
        TableSchemas.row(
            "T2",
            "V2",
            "E2",
            "F",
            LocalDateTime.of(2026, 3, 29, 1, 30),
            12.5,
            3.25,
            4,
            "G1",
            "S1",
            1013.25,
            "qnh",
            900.0,
            901.0,
            950.0,
            -5.0,
            -2.0,
            false,
            new String[0],
            "a/b.csv",
            7L));
  }

  @Test
  void rowsReadAsThoseThatSparkWrites() {
    Dataset<Row> rows =
        spark.createDataFrame(readings(), TableSchemas.of(Table.CYLINDER_READINGS)).coalesce(1);
    rows.write().parquet(Folders.target(folder.resolve("by-spark")));
    new TableWriter(folder).write(Table.CYLINDER_READINGS, rows.toLocalIterator(), 3);
    assertEquals(read("by-spark"), read(Table.CYLINDER_READINGS.tableName()));
    assertEquals(3, read("by-spark").size());
  }

  /** Real lists and dates stand in other tables than readings. */
  @Test
  void listsAndDatesReadAsThoseThatSparkWrites() {
    Object[] cells = new Object[Table.WORK_LIST.columns().size()];
    cells[0] = 1;
    cells[7] = new Integer[] {3, 4};
    cells[10] = LocalDate.of(1969, 7, 20);
    cells[12] = new String[] {"valve"};
    cells[13] = new Double[] {0.25, 0.75};
    Dataset<Row> rows =
        spark.createDataFrame(List.of(TableSchemas.row(cells)), TableSchemas.of(Table.WORK_LIST));
    rows.write().parquet(Folders.target(folder.resolve("by-spark")));
    new TableWriter(folder).write(Table.WORK_LIST, rows, 1);
    assertEquals(read("by-spark"), read(Table.WORK_LIST.tableName()));
  }

  private List<Row> read(String table) {
    return spark.read().parquet(Folders.source(folder.resolve(table))).collectAsList();
  }

  @Test
  void computedRowsAreWrittenInTheOrderOfTheirTable() {
    List<Row> offsets = new ArrayList<>();
    for (String gauge : List.of("G3", "G1", "G2")) {
      offsets.add(TableSchemas.row(gauge, 1L, 0.5, Double.NaN));
    }
    new TableWriter(folder)
        .write(
            Table.GAUGE_OFFSETS,
            spark.createDataFrame(offsets, TableSchemas.of(Table.GAUGE_OFFSETS)),
            3);
    List<Row> read = read(Table.GAUGE_OFFSETS.tableName());
    assertEquals(List.of("G1", "G2", "G3"), read.stream().map(row -> row.getString(0)).toList());
    assertEquals(List.of(true, true, true), read.stream().map(row -> row.isNullAt(3)).toList());
  }

  @Test
  void aSmallTableIsPutInItsOrderAsSparkWouldPutIt() {
    List<Row> rows = new ArrayList<>();
    for (String family : List.of("\uD83D\uDE97", "\uE000", "A")) {
      for (Double km : new Double[] {2e5, null, 1e5}) {
        Object[] cells = new Object[Table.FAMILY_NORMS.columns().size()];
        cells[0] = family;
        cells[1] = km;
        cells[2] = km == null ? 5.0 : null;
        rows.add(TableSchemas.row(cells));
      }
    }
    new TableWriter(folder.resolve("list")).write(Table.FAMILY_NORMS, rows);
    new TableWriter(folder.resolve("computed"))
        .write(
            Table.FAMILY_NORMS,
            spark.createDataFrame(rows, TableSchemas.of(Table.FAMILY_NORMS)),
            rows.size());
    assertEquals(read("computed/family_norms"), read("list/family_norms"));
    assertEquals("A", read("list/family_norms").get(0).getString(0));
  }

  @Test
  void equalNeighboursAreWrittenOnce() {
    Row note = TableSchemas.row("vehicles.csv", 1L, "family_id", "x", "unknown");
    Row other = TableSchemas.row("vehicles.csv", 2L, "family_id", "x", "unknown");
    TableWriter writer = new TableWriter(folder);
    writer.writeDistinct(Table.REGISTER_NOTES, List.of(note, note, other, other).iterator());
    assertEquals(Map.of("register_notes", 2L), writer.rowsWritten());
  }

  @Test
  void aTaskThatIsRepeatedPutsTheSameBytesInTheSamePlace() throws IOException {
    Files.createDirectories(folder.resolve(Table.GAUGE_OFFSETS.tableName()));
    TableFile file = TableFile.in(folder, Table.GAUGE_OFFSETS);
    Row row = TableSchemas.row("G1", 1L, 0.5, 0.1);
    assertEquals(1, file.write(0, cells(row)));
    byte[] first = Files.readAllBytes(only());
    assertEquals(1, file.write(0, cells(row)));
    assertArrayEquals(first, Files.readAllBytes(only()));
  }

  @Test
  void aTaskThatBreaksOffLeavesTheWholeFileOfAnEarlierOne() throws IOException {
    Path table = Files.createDirectories(folder.resolve(Table.GAUGE_OFFSETS.tableName()));
    TableFile file = TableFile.in(folder, Table.GAUGE_OFFSETS);
    file.write(0, cells(TableSchemas.row("G1", 1L, 0.5, 0.1)));
    byte[] whole = Files.readAllBytes(only());
    Iterator<TableRow> broken =
        Stream.<TableRow>of(
                row -> {
                  throw new UncheckedIOException(new IOException("disk gone"));
                })
            .iterator();
    assertThrows(UncheckedIOException.class, () -> file.write(0, broken));
    WholeFile.clear(table);
    assertArrayEquals(whole, Files.readAllBytes(only()));
  }

  private static Iterator<TableRow> cells(Row row) {
    return List.of(RowCells.of(Table.GAUGE_OFFSETS, row)).iterator();
  }

  private Path only() throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve(Table.GAUGE_OFFSETS.tableName()))) {
      List<Path> all = files.toList();
      assertEquals(1, all.size(), all::toString);
      return all.get(0);
    }
  }

  @Test
  void aRowOfTooFewCellsIsRefused() throws IOException {
    Files.createDirectories(folder.resolve(Table.GAUGE_OFFSETS.tableName()));
    TableFile file = TableFile.in(folder, Table.GAUGE_OFFSETS);
    Iterator<TableRow> few = List.<TableRow>of(row -> row.text("G1")).iterator();
    IllegalStateException refused =
        assertThrows(IllegalStateException.class, () -> file.write(0, few));
    assertEquals("a row has 1 cells where 4 are declared", refused.getMessage());
  }

  @Test
  void aTableOfOtherLengthThanCountedIsNoTable() {
    StoreException refused =
        assertThrows(
            StoreException.class,
            () -> new TableWriter(folder).write(Table.GAUGE_OFFSETS, List.<Row>of().iterator(), 1));
    assertEquals(
        "table gauge_offsets was not written as it should be: 0 rows where 1 were expected",
        refused.getMessage());
  }
}

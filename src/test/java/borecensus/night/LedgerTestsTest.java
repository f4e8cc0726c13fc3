package borecensus.night;

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
import borecensus.ledger.LedgerSheet;
import borecensus.night.LedgerRows.FileKey;
import borecensus.night.hadoop.Folders;
import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.ColumnFile;
import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import borecensus.packed.KnownTexts;
import borecensus.packed.SheetBytes;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.apache.parquet.column.ParquetProperties;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tests read from the ledger's files, whether we or Spark's own writer made these. */
class LedgerTestsTest extends OnLocalSpark {
  private static final FileKey KEY = new FileKey(1L << 32, "sheets/größer.csv", "digest");

  @TempDir private Path folder;
  private Path batch;

  @BeforeEach
  void makeTheBatch() throws IOException {
    batch = Files.createDirectories(folder.resolve("batch"));
  }

  private static SheetRow row(int i) {
    return new SheetRow(
        KEY.sourceFile(),
        LongStream.rangeClosed(i, i + i % 3L).boxed().toList(),
        "T" + i,
        "V" + i / 5,
        i % 7 == 0 ? "serial " + i : "",
        LocalDateTime.of(1969, 12, 31, 23, 59, 59, 999_999_000).plusHours(i),
        i % 4 == 0 ? Double.NaN : 1_000.25 * i,
        i % 4 == 0 ? i : Double.NaN,
        "S" + i % 11,
        i % 2 == 0 ? -0.0 : Double.MAX_VALUE,
        980 + i % 40,
        Double.NaN,
        "G" + i % 30,
        PressureUnit.values()[i % PressureUnit.values().length],
        SheetKind.values()[i % SheetKind.values().length],
        Throttle.values()[i % Throttle.values().length],
        20.5,
        250 + i % 3,
        6,
        "",
        i % 5 == 0 ? "=cmd|' /C'!A0\u0000\r\n<script>\uD83D\uDE97 " + i : "",
        IntStream.range(0, i % 17).mapToDouble(c -> c == 3 ? Double.NaN : 10 + i % 9).toArray(),
        i % 6 == 0 ? new double[] {0.1 * i, 1 / 3.0} : new double[0],
        i % 17,
        16);
  }

  private static List<SheetRow> rows(int count) {
    return IntStream.range(0, count).mapToObj(LedgerTestsTest::row).toList();
  }

  /** Between the tests stand rows of every other kind. */
  private void write(List<SheetRow> rows, ParquetProperties storage) throws IOException {
    try (ColumnFile file =
        new ColumnFile(batch.resolve("part.parquet"), LedgerSchema.parquet(), storage)) {
      LedgerRows ledger = new LedgerRows(KEY, file);
      for (SheetRow row : rows) {
        ledger.write(new SheetItem.Test(row));
        if (row.firstReadings().length > 0) {
          ledger.write(
              new SheetItem.Refused(
                  new RowRefusal(KEY.sourceFile(), 7, RowCode.BAD_DATE, "tested_at", "", "no")));
          ledger.write(new SheetItem.Repeated(new RowPlace(KEY.sourceFile(), 8)));
        }
      }
      ledger.write(new SheetItem.End(9, List.of("colour")));
      file.end();
    }
  }

  private static List<String> read(Path from) throws IOException {
    List<String> sheets = new ArrayList<>();
    ByteWriter record = new ByteWriter();
    for (LedgerPart part : LedgerPart.of(List.of(from))) {
      try (LedgerTests tests = new LedgerTests(part, record)) {
        while (tests.next()) {
          record.clear();
          tests.writeVehicleId();
          int testIdAt = tests.writeSheet();
          ByteReader reader = new ByteReader(record.toBytes());
          LedgerSheet sheet = SheetBytes.read(reader.text(), reader, new KnownTexts());
          assertEquals(record.size(), reader.position());
          assertEquals(sheet.row().testId(), new ByteReader(record.toBytes(), testIdAt).text());
          sheets.add(told(sheet));
        }
      }
    }
    return sheets;
  }

  private static String told(LedgerSheet sheet) {
    return sheet.fileOrder()
        + " "
        + sheet.row().toString().replaceAll("\\[D@[0-9a-f]+", "")
        + Arrays.toString(sheet.row().readings())
        + Arrays.toString(sheet.row().firstReadings());
  }

  private static List<String> told(List<SheetRow> rows) {
    return rows.stream().map(row -> told(new LedgerSheet(KEY.fileOrder(), row))).toList();
  }

  private static ParquetProperties.Builder storage() {
    return ParquetProperties.builder()
        .withSizeStatisticsEnabled(false)
        .withRowGroupRowCountLimit(900)
        .withPageRowCountLimit(200);
  }

  @Test
  void testsOfTheLedgerComeBackAsTheyWereTakenIn() throws IOException {
    List<SheetRow> rows = rows(2_000);
    write(rows, storage().build());
    assertEquals(told(rows), read(batch));
    write(rows, storage().withDictionaryEncoding(false).build());
    assertEquals(told(rows), read(batch));
  }

  /** The look-up keeps these bytes: where they change, its format has to be raised. */
  @Test
  void bytesOfATestAreThoseOfTheLookUpsFormat() throws IOException {
    write(List.of(row(12)), storage().build());
    String sheet =
        "8080808020147368656574732f6772c3b6c39f65722e63737601180454313201febfddeec102017a03533100"
            + "0000000000000080c24d01044731320462617204647279056f70656ecf01c6133e01010c840184018401"
            + "01840184018401840184018401840184010200343333333333f33f00555555555555d53f1820";
    assertEquals(sheet, hex(batch));
  }

  private static String hex(Path from) throws IOException {
    ByteWriter record = new ByteWriter();
    try (LedgerTests tests = new LedgerTests(LedgerPart.of(List.of(from)).get(0), record)) {
      assertTrue(tests.next());
      tests.writeSheet();
    }
    return HexFormat.of().formatHex(record.toBytes());
  }

  @Test
  void testsThatSparkHasWrittenComeBackAsWell() throws IOException {
    List<SheetRow> rows = rows(2_000);
    write(rows, storage().build());
    Dataset<Row> ledger =
        spark.read().schema(LedgerField.schema()).parquet(Folders.source(batch)).coalesce(1);
    for (String version : List.of("v1", "v2")) {
      Path bySpark = folder.resolve("by-spark-" + version);
      ledger.write().option("parquet.writer.version", version).parquet(Folders.target(bySpark));
      assertEquals(told(rows), read(bySpark));
    }
  }

  @Test
  void testWithoutOneOfItsCellsIsToldByTheNameOfTheColumn() throws IOException {
    try (ColumnFile file =
        new ColumnFile(batch.resolve("part.parquet"), LedgerSchema.parquet(), storage().build())) {
      file.text(LedgerField.KIND.ordinal(), CellWriter.utf8(LedgerKind.TEST.code()));
      file.endRow();
      file.end();
    }
    IllegalStateException told = assertThrows(IllegalStateException.class, () -> read(batch));
    assertEquals("a test in the ledger has no vehicle_id", told.getMessage());
  }
}

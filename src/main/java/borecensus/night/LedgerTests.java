package borecensus.night;

import borecensus.night.parquet.PackedColumn;
import borecensus.packed.ByteWriter;
import borecensus.packed.SheetBytes;
import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;

/**
 * The tests in a file of the ledger, from its columns straight to bytes. The whole ledger passes
 * here in a night that begins from it: Spark's own way, by rows, takes each value out of its column
 * to put it into a row, and out of that again.
 */
final class LedgerTests implements Closeable {
  private static final byte[] TEST = written(LedgerKind.TEST.code());

  /** In the order in which {@link SheetBytes} reads them. */
  private static final List<LedgerField> FIELDS =
      List.of(
          LedgerField.FILE_ORDER,
          LedgerField.SOURCE_FILE,
          LedgerField.ROW_NUMBERS,
          LedgerField.TEST_ID,
          LedgerField.ENGINE_SERIAL,
          LedgerField.TESTED_AT,
          LedgerField.ODOMETER_KM,
          LedgerField.ENGINE_HOURS,
          LedgerField.SITE_ID,
          LedgerField.ALTITUDE_M,
          LedgerField.STATION_PRESSURE_HPA,
          LedgerField.QNH_HPA,
          LedgerField.GAUGE_ID,
          LedgerField.UNIT,
          LedgerField.SHEET_KIND,
          LedgerField.THROTTLE,
          LedgerField.ENGINE_TEMP_C,
          LedgerField.CRANKING_RPM,
          LedgerField.STROKES,
          LedgerField.ADAPTOR_ID,
          LedgerField.REMARKS,
          LedgerField.READINGS,
          LedgerField.FIRST_READINGS,
          LedgerField.CYLINDER_COLUMNS,
          LedgerField.FILE_CYLINDER_COLUMNS);

  private static final int TEST_ID = FIELDS.indexOf(LedgerField.TEST_ID);

  private final ParquetFileReader file;
  private final ByteWriter record;
  private final ByteWriter kindOfRow = new ByteWriter();
  private PackedColumn[] sheet = {};
  private PackedColumn kind;
  private PackedColumn vehicleId;
  private long rowsLeft;

  /**
   * Opens a file of the ledger.
   *
   * @param record where the tests are written to
   */
  LedgerTests(LedgerPart part, ByteWriter record) throws IOException {
    this.file = part.open();
    this.record = record;
  }

  private static byte[] written(String text) {
    ByteWriter writer = new ByteWriter();
    writer.text(text);
    return writer.toBytes();
  }

  /** Begins with the next row group; false when there is none. */
  private boolean nextGroup() throws IOException {
    file.setRequestedSchema(wanted(file.getFileMetaData().getSchema()));
    PageReadStore pages = file.readNextRowGroup();
    if (pages == null) {
      return false;
    }
    rowsLeft = pages.getRowCount();
    kind = column(LedgerField.KIND, pages);
    vehicleId = column(LedgerField.VEHICLE_ID, pages);
    sheet = FIELDS.stream().map(f -> column(f, pages)).toArray(PackedColumn[]::new);
    return true;
  }

  private static MessageType wanted(MessageType all) {
    List<Type> wanted = new ArrayList<>();
    for (LedgerField field : LedgerField.values()) {
      if (field == LedgerField.KIND || field == LedgerField.VEHICLE_ID || FIELDS.contains(field)) {
        wanted.add(all.getType(field.columnName()));
      }
    }
    return new MessageType(all.getName(), wanted);
  }

  private PackedColumn column(LedgerField field, PageReadStore pages) {
    for (ColumnDescriptor column : file.getFileMetaData().getSchema().getColumns()) {
      if (column.getPath()[0].equals(field.columnName())) {
        return new PackedColumn(column, pages.getPageReader(column));
      }
    }
    throw new IllegalStateException("the ledger has no column " + field.columnName());
  }

  /** Goes to the next test; false when there is none. */
  boolean next() throws IOException {
    while (rowsLeft > 0 || nextGroup()) {
      rowsLeft--;
      kindOfRow.clear();
      write(kind, LedgerField.KIND, kindOfRow);
      if (kindOfRow.holds(TEST)) {
        return true;
      }
      vehicleId.skip();
      for (PackedColumn column : sheet) {
        column.skip();
      }
    }
    return false;
  }

  /** Writes the id of the test's vehicle. */
  void writeVehicleId() {
    write(vehicleId, LedgerField.VEHICLE_ID, record);
  }

  /**
   * Then writes the test as {@link SheetBytes} reads it.
   *
   * @return where its id begins in what was written
   */
  int writeSheet() {
    int testIdAt = 0;
    for (int i = 0; i < sheet.length; i++) {
      testIdAt = i == TEST_ID ? record.size() : testIdAt;
      write(sheet[i], FIELDS.get(i), record);
    }
    return testIdAt;
  }

  private static void write(PackedColumn column, LedgerField field, ByteWriter to) {
    if (column.isAbsent()) {
      throw new IllegalStateException("a test in the ledger has no " + field.columnName());
    }
    column.write(to);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}

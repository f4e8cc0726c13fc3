package borecensus.night;

import borecensus.packed.ByteWriter;
import java.io.Closeable;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ColumnReader;
import org.apache.parquet.column.impl.ColumnReaderImpl;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;
import org.apache.spark.sql.types.ArrayType;

/**
 * The tests in a file of the ledger, from its columns straight to bytes. The whole ledger passes
 * here in a night that begins from it: Spark's own way, by rows, takes each value out of its column
 * to put it into a row, and out of that again.
 */
final class LedgerTests implements Closeable {
  private static final Binary TEST =
      Binary.fromConstantByteArray(LedgerKind.TEST.code().getBytes(StandardCharsets.UTF_8));

  private static final int TEST_ID = SheetBytes.FIELDS.indexOf(LedgerField.TEST_ID);

  private final ParquetFileReader file;
  private final ByteWriter record;
  private final List<Column> sheet = new ArrayList<>();
  private ColumnReader kind;
  private Column vehicleId;
  private long rowsLeft;
  private Binary lastKind;
  private boolean lastKindIsTest;

  /**
   * Opens a file of the ledger.
   *
   * @param record where the tests are written to
   */
  LedgerTests(LedgerPart part, ByteWriter record) throws IOException {
    this.file = part.open();
    this.record = record;
  }

  /** Begins with the next row group; false when there is none. */
  private boolean nextGroup() throws IOException {
    file.setRequestedSchema(wanted(file.getFileMetaData().getSchema()));
    PageReadStore pages = file.readNextRowGroup();
    if (pages == null) {
      return false;
    }
    rowsLeft = pages.getRowCount();
    lastKind = null;
    kind = reader(LedgerField.KIND, pages, new PrimitiveConverter() {});
    vehicleId = column(LedgerField.VEHICLE_ID, pages);
    sheet.clear();
    for (LedgerField field : SheetBytes.FIELDS) {
      sheet.add(column(field, pages));
    }
    return true;
  }

  private static MessageType wanted(MessageType all) {
    List<Type> wanted = new ArrayList<>();
    for (LedgerField field : LedgerField.values()) {
      if (field == LedgerField.KIND
          || field == LedgerField.VEHICLE_ID
          || SheetBytes.FIELDS.contains(field)) {
        wanted.add(all.getType(field.columnName()));
      }
    }
    return new MessageType(all.getName(), wanted);
  }

  private Column column(LedgerField field, PageReadStore pages) {
    if (field.type() instanceof ArrayType list) {
      ByteWriter elements = new ByteWriter();
      LedgerCell cell = LedgerCell.of(list.elementType(), elements);
      return new ListColumn(field, reader(field, pages, cell), elements);
    }
    return new Column(field, reader(field, pages, LedgerCell.of(field.type(), record)));
  }

  private ColumnReader reader(LedgerField field, PageReadStore pages, PrimitiveConverter cell) {
    for (ColumnDescriptor column : file.getFileMetaData().getSchema().getColumns()) {
      if (column.getPath()[0].equals(field.columnName())) {
        // Which software wrote the file matters for an encoding that the ledger has not.
        return new ColumnReaderImpl(column, pages.getPageReader(column), cell, null);
      }
    }
    throw new IllegalStateException("the ledger has no column " + field.columnName());
  }

  /** Goes to the next test; false when there is none. */
  boolean next() throws IOException {
    while (rowsLeft > 0 || nextGroup()) {
      rowsLeft--;
      boolean test = isTest();
      kind.consume();
      if (test) {
        return true;
      }
      vehicleId.skip();
      sheet.forEach(Column::skip);
    }
    return false;
  }

  private boolean isTest() {
    Binary code = kind.getBinary();
    // What stands in a dictionary comes as the same object each time.
    if (code != lastKind) {
      lastKind = code;
      lastKindIsTest = TEST.equals(code);
    }
    return lastKindIsTest;
  }

  /** Writes the id of the test's vehicle. */
  void writeVehicleId() {
    vehicleId.write(record);
  }

  /**
   * Then writes the test as {@link SheetBytes} reads it.
   *
   * @return where its id begins in what was written
   */
  int writeSheet() {
    int testIdAt = 0;
    for (int i = 0; i < sheet.size(); i++) {
      testIdAt = i == TEST_ID ? record.size() : testIdAt;
      sheet.get(i).write(record);
    }
    return testIdAt;
  }

  @Override
  public void close() throws IOException {
    file.close();
  }

  /** A column with one value in each row. */
  private static class Column {
    final LedgerField field;
    final ColumnReader reader;
    final int present;

    Column(LedgerField field, ColumnReader reader) {
      this.field = field;
      this.reader = reader;
      this.present = reader.getDescriptor().getMaxDefinitionLevel();
    }

    void skip() {
      do {
        if (reader.getCurrentDefinitionLevel() == present) {
          reader.skip();
        }
        reader.consume();
      } while (reader.getCurrentRepetitionLevel() > 0);
    }

    void write(ByteWriter record) {
      if (reader.getCurrentDefinitionLevel() != present) {
        throw absent();
      }
      reader.writeCurrentValueToConverter();
      reader.consume();
    }

    IllegalStateException absent() {
      return new IllegalStateException("a test in the ledger has no " + field.columnName());
    }
  }

  /** A column with a list in each row. */
  private static final class ListColumn extends Column {
    private static final int NO_LIST = 0;

    private final ByteWriter elements;

    ListColumn(LedgerField field, ColumnReader reader, ByteWriter elements) {
      super(field, reader);
      this.elements = elements;
    }

    @Override
    void write(ByteWriter record) {
      if (reader.getCurrentDefinitionLevel() == NO_LIST) {
        throw absent();
      }
      int count = 0;
      elements.clear();
      do {
        if (reader.getCurrentDefinitionLevel() == present) {
          reader.writeCurrentValueToConverter();
          count++;
        }
        reader.consume();
      } while (reader.getCurrentRepetitionLevel() > 0);
      record.count(count);
      record.written(elements);
    }
  }
}

package borecensus.night;

import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.TableRow;
import borecensus.tables.Column;
import borecensus.tables.ColumnType;
import borecensus.tables.Table;
import java.nio.ByteBuffer;
import java.util.List;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.util.ArrayData;

/**
 * A row as Spark computes with it, as a row of a table: text stays the bytes that it is, dates and
 * times stay numbers. The same cells as those of {@link RowCells}, without a value made for each.
 *
 * <p>Spark gives a row's memory to the next one: a row is good until the next one is asked for.
 *
 * @param columns of the table, as the row's first fields, whose types must be those of {@link
 *     TableSchemas}: a row does not know its types
 */
record InternalRowCells(List<Column> columns, InternalRow row) implements ColumnCells {

  static TableRow of(Table table, InternalRow row) {
    return new InternalRowCells(table.columns(), row);
  }

  @Override
  public boolean isAbsent(int field) {
    return row.isNullAt(field);
  }

  @Override
  public void writeCell(int field, ColumnType type, CellWriter cells) {
    switch (type) {
      case TEXT -> cells.text(row.getUTF8String(field).getByteBuffer());
      case INTEGER -> cells.integer(row.getInt(field));
      case LONG -> cells.whole(row.getLong(field));
      case REAL -> cells.real(row.getDouble(field));
      case TRUTH -> cells.truth(row.getBoolean(field));
      case DATE -> cells.epochDay(row.getInt(field));
      case TIME -> cells.epochMicros(row.getLong(field));
      case TEXTS -> cells.texts(texts(list(field)));
      case REALS -> cells.reals(list(field).toDoubleArray());
      case INTEGERS -> cells.integers(list(field).toIntArray());
    }
  }

  /** A list, all of whose elements are there: an absent number would read as some other number. */
  private ArrayData list(int field) {
    ArrayData list = row.getArray(field);
    for (int i = 0; i < list.numElements(); i++) {
      if (list.isNullAt(i)) {
        throw new IllegalStateException(
            "an element is absent in column " + columns.get(field).name());
      }
    }
    return list;
  }

  private static ByteBuffer[] texts(ArrayData list) {
    ByteBuffer[] texts = new ByteBuffer[list.numElements()];
    for (int i = 0; i < texts.length; i++) {
      texts[i] = list.getUTF8String(i).getByteBuffer();
    }
    return texts;
  }
}

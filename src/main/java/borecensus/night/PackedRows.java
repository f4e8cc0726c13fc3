package borecensus.night;

import java.time.LocalDate;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.codegen.UnsafeArrayWriter;
import org.apache.spark.sql.catalyst.expressions.codegen.UnsafeRowWriter;
import org.apache.spark.sql.catalyst.expressions.codegen.UnsafeWriter;
import org.apache.spark.sql.types.ArrayType;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructField;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * Rows of values in Spark's own form, each in the place of the last one. Spark's way there writes a
 * program for the columns in every task, which takes a task of few rows more time than its rows.
 */
final class PackedRows implements Iterator<InternalRow> {
  private final Iterator<Row> rows;
  private final Struct struct;
  private final UnsafeRowWriter out;

  /**
   * Packs rows when they are taken.
   *
   * @param rows of values of these types: texts, numbers, truths, dates, bytes, structures of them,
   *     and lists of texts, numbers or structures
   */
  PackedRows(Iterator<Row> rows, StructType schema) {
    this.rows = rows;
    this.struct = new Struct(schema);
    this.out = new UnsafeRowWriter(schema.length());
  }

  @Override
  public boolean hasNext() {
    return rows.hasNext();
  }

  @Override
  public InternalRow next() {
    Row row = rows.next();
    out.reset();
    out.zeroOutNullBytes();
    struct.writeCells(row, out);
    return out.getRow();
  }

  /** Writes values of one type. */
  private interface Cell {
    void write(Object value, UnsafeWriter out, int field);
  }

  private static Cell cell(DataType type) {
    if (type.equals(DataTypes.StringType)) {
      return (value, out, field) -> out.write(field, UTF8String.fromString((String) value));
    }
    if (type.equals(DataTypes.DoubleType)) {
      return (value, out, field) -> out.write(field, (double) value);
    }
    if (type.equals(DataTypes.LongType)) {
      return (value, out, field) -> out.write(field, (long) value);
    }
    if (type.equals(DataTypes.IntegerType)) {
      return (value, out, field) -> out.write(field, (int) value);
    }
    if (type.equals(DataTypes.BooleanType)) {
      return (value, out, field) -> out.write(field, (boolean) value);
    }
    if (type.equals(DataTypes.DateType)) {
      return (value, out, field) -> out.write(field, (int) ((LocalDate) value).toEpochDay());
    }
    if (type.equals(DataTypes.BinaryType)) {
      return (value, out, field) -> out.write(field, (byte[]) value);
    }
    if (type instanceof ArrayType list) {
      return new Items(list.elementType());
    }
    if (type instanceof StructType inner) {
      return new Struct(inner);
    }
    throw new IllegalArgumentException("values of type " + type + " are not packed");
  }

  /** The cells of a row, or of a row within a row. */
  private static final class Struct implements Cell {
    private final Cell[] cells;

    Struct(StructType schema) {
      StructField[] fields = schema.fields();
      cells = new Cell[fields.length];
      for (int i = 0; i < fields.length; i++) {
        cells[i] = cell(fields[i].dataType());
      }
    }

    void writeCells(Row row, UnsafeRowWriter out) {
      for (int i = 0; i < cells.length; i++) {
        Object value = row.get(i);
        if (value == null) {
          out.setNullAt(i);
        } else {
          cells[i].write(value, out, i);
        }
      }
    }

    @Override
    public void write(Object value, UnsafeWriter out, int field) {
      int from = out.cursor();
      UnsafeRowWriter inner = new UnsafeRowWriter(out, cells.length);
      inner.resetRowWriter();
      writeCells((Row) value, inner);
      out.setOffsetAndSizeFromPreviousCursor(field, from);
    }
  }

  /** A list, none of whose items is absent. */
  private static final class Items implements Cell {
    private final Cell item;
    private final int itemBytes;

    Items(DataType type) {
      if (type.equals(DataTypes.BooleanType) || type.equals(DataTypes.DateType)) {
        throw new IllegalArgumentException("lists of type " + type + " are not packed");
      }
      item = cell(type);
      itemBytes = type.equals(DataTypes.IntegerType) ? Integer.BYTES : Long.BYTES;
    }

    @Override
    public void write(Object value, UnsafeWriter out, int field) {
      Object[] items = value instanceof List<?> list ? list.toArray() : (Object[]) value;
      int from = out.cursor();
      UnsafeArrayWriter inner = new UnsafeArrayWriter(out, itemBytes);
      inner.initialize(items.length);
      for (int i = 0; i < items.length; i++) {
        item.write(items[i], inner, i);
      }
      out.setOffsetAndSizeFromPreviousCursor(field, from);
    }
  }
}

package borecensus.night;

import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.TableRow;
import borecensus.tables.Column;
import borecensus.tables.ColumnType;
import borecensus.tables.Table;
import java.util.List;
import org.apache.spark.sql.Row;

/**
 * A Spark row as a row of a table.
 *
 * @param columns of the table, as the row's first fields
 */
record RowCells(List<Column> columns, Row row) implements ColumnCells {

  static TableRow of(Table table, Row row) {
    return new RowCells(table.columns(), row);
  }

  @Override
  public boolean isAbsent(int field) {
    return row.isNullAt(field);
  }

  @Override
  public void writeCell(int field, ColumnType type, CellWriter cells) {
    switch (type) {
      case TEXT -> cells.text(row.getString(field));
      case INTEGER -> cells.integer(row.getInt(field));
      case LONG -> cells.whole(row.getLong(field));
      case REAL -> cells.real(row.getDouble(field));
      case TRUTH -> cells.truth(row.getBoolean(field));
      case DATE -> cells.date(row.getAs(field));
      case TIME -> cells.time(row.getAs(field));
      case TEXTS -> cells.texts(row.getList(field));
      case REALS -> cells.reals(row.getList(field));
      case INTEGERS -> cells.integers(row.getList(field));
    }
  }
}

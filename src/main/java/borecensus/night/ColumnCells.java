package borecensus.night;

import borecensus.night.parquet.CellWriter;
import borecensus.night.parquet.TableRow;
import borecensus.tables.Column;
import borecensus.tables.ColumnType;
import java.util.List;

/** A row of a table whose cells are found by the columns' places, as those of Spark are. */
interface ColumnCells extends TableRow {

  /** Columns of the table, as the row's first fields. */
  List<Column> columns();

  boolean isAbsent(int field);

  /** Says a cell that is there. */
  void writeCell(int field, ColumnType type, CellWriter cells);

  @Override
  default void writeTo(CellWriter cells) {
    List<Column> columns = columns();
    for (int i = 0; i < columns.size(); i++) {
      if (isAbsent(i)) {
        cells.absent();
      } else {
        writeCell(i, columns.get(i).type(), cells);
      }
    }
  }
}

package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.publish.StoreException;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;

/** Writes the tables of one snapshot and checks what was written. */
final class TableWriter {
  private static final long ROWS_PER_FILE = 4_000_000;

  private final SparkSession spark;
  private final Path snapshot;
  private final Map<String, Long> rowsWritten = new TreeMap<>();

  TableWriter(SparkSession spark, Path snapshot) {
    this.spark = spark;
    this.snapshot = snapshot;
  }

  /** Writes rows that a stage has computed, as few files as their number asks for. */
  void write(Table table, Dataset<Row> rows, long expectedRows) {
    Column[] order = table.order().stream().map(functions::col).toArray(Column[]::new);
    rows.select(table.columns().stream().map(c -> functions.col(c.name())).toArray(Column[]::new))
        .coalesce(files(expectedRows))
        .sortWithinPartitions(order)
        .write()
        .parquet(folder(table));
    verify(table, expectedRows);
  }

  /** How many files a table of so many rows is written to. */
  static int files(long rows) {
    return (int) Math.max(1, (rows + ROWS_PER_FILE - 1) / ROWS_PER_FILE);
  }

  /** Writes rows whose partitions are in the table's order already, a file for each. */
  void writeOrdered(Table table, Dataset<Row> rows, long expectedRows) {
    rows.write().parquet(folder(table));
    verify(table, expectedRows);
  }

  /** Writes a table that is small whatever the fleet. */
  void write(Table table, List<Row> rows) {
    write(table, spark.createDataFrame(rows, TableSchemas.of(table)), rows.size());
  }

  /** Rows of each table written so far. */
  Map<String, Long> rowsWritten() {
    return rowsWritten;
  }

  private void verify(Table table, long expectedRows) {
    WrittenTable written = WrittenTable.in(snapshot.resolve(table.tableName()));
    List<String> declared = table.columns().stream().map(borecensus.tables.Column::name).toList();
    if (written.rows() != expectedRows || !written.columns().equals(declared)) {
      throw new StoreException(
          "table %s was not written as it should be: %d rows where %d were expected"
              .formatted(table.tableName(), written.rows(), expectedRows));
    }
    rowsWritten.put(table.tableName(), written.rows());
  }

  private String folder(Table table) {
    return Folders.target(snapshot.resolve(table.tableName()));
  }
}

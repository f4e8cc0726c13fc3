package borecensus.night;

import borecensus.night.hadoop.WholeFile;
import borecensus.night.parquet.TableFile;
import borecensus.night.parquet.TableRow;
import borecensus.publish.StoreException;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.Function2;
import org.apache.spark.executor.OutputMetrics;
import org.apache.spark.rdd.RDD;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.StructType;

/** Writes the tables of one snapshot and checks what was written. */
final class TableWriter {
  /** Of the longest table, 25 to 30 bytes a row: files of 64 to 80 MB where there are several. */
  private static final long ROWS_PER_FILE = 2_500_000;

  private static final String VEHICLE_ID = "vehicle_id";

  private final Path snapshot;
  private final Map<String, Long> rowsWritten = new ConcurrentSkipListMap<>();

  TableWriter(Path snapshot) {
    this.snapshot = snapshot;
  }

  /** Writes rows that a stage has computed, as few files as their number asks for. */
  void write(Table table, Dataset<Row> rows, long expectedRows) {
    Column[] order = table.order().stream().map(functions::col).toArray(Column[]::new);
    Dataset<Row> ordered =
        cells(table, rows).coalesce(files(expectedRows)).sortWithinPartitions(order);
    // From Spark's own form straight to the file: to make values of millions of rows costs more
    // than to sort and store them.
    JavaRDD<InternalRow> cells = ordered.queryExecution().toRdd().toJavaRDD();
    writeOrdered(table, cells.map(row -> InternalRowCells.of(table, row)), expectedRows);
  }

  /**
   * The same of a table in the order of vehicles, of rows that are in that order within each
   * partition already: they are merged, which takes less than to sort them.
   */
  void writeMerged(Table table, Dataset<Row> rows, long expectedRows) {
    if (!table.order().equals(List.of(VEHICLE_ID))) {
      throw new IllegalArgumentException(table.tableName() + " is not in the order of vehicles");
    }
    int vehicleId = names(table).indexOf(VEHICLE_ID);
    RDD<InternalRow> merged =
        new MergedPartitions<>(
            cells(table, rows).queryExecution().toRdd(),
            files(expectedRows),
            row -> row.getUTF8String(vehicleId));
    writeOrdered(
        table, merged.toJavaRDD().map(row -> InternalRowCells.of(table, row)), expectedRows);
  }

  private static Dataset<Row> cells(Table table, Dataset<Row> rows) {
    Dataset<Row> cells =
        rows.select(names(table).stream().map(functions::col).toArray(Column[]::new));
    requireTypes(table, cells.schema());
    return cells;
  }

  private static List<String> names(Table table) {
    return table.columns().stream().map(borecensus.tables.Column::name).toList();
  }

  /** Refuses columns of other types than declared, whose bytes would be taken for other values. */
  private static void requireTypes(Table table, StructType computed) {
    String declared = TableSchemas.of(table).catalogString();
    if (!computed.catalogString().equals(declared)) {
      throw new IllegalArgumentException(
          "rows of table %s have the columns %s where %s are declared"
              .formatted(table.tableName(), computed.catalogString(), declared));
    }
  }

  /** How many files a table of so many rows is written to. */
  static int files(long rows) {
    return (int) Math.max(1, (rows + ROWS_PER_FILE - 1) / ROWS_PER_FILE);
  }

  /** Writes rows whose partitions are in the table's order already, a file for each. */
  void writeOrdered(Table table, JavaRDD<TableRow> rows, long expectedRows) {
    TableFile file = created(table);
    if (rows.getNumPartitions() == 0) {
      file.write(0, Collections.emptyIterator());
    }
    rows.mapPartitionsWithIndex(new WritePart(file, 0), true).collect();
    verify(table, expectedRows);
  }

  /** A table of which some files may be there already, to be ended when all are. */
  Parts inParts(Table table) {
    return new Parts(table, created(table));
  }

  /** The files of one table, written one group after the other. */
  final class Parts {
    private final Table table;
    private final TableFile file;

    private Parts(Table table, TableFile file) {
      this.table = table;
      this.file = file;
    }

    /** Where the file of a number goes. */
    Path path(int number) {
      return file.path(number);
    }

    /** Writes a file for each partition, numbered from the first. */
    void write(JavaRDD<TableRow> rows, int first) {
      rows.mapPartitionsWithIndex(new WritePart(file, first), true).collect();
    }

    /** Checks that all rows are there. */
    void end(long expectedRows) {
      verify(table, expectedRows);
    }
  }

  /** Writes one file from here, of rows in the table's order that come from one place. */
  void write(Table table, Iterator<Row> rows, long expectedRows) {
    created(table).write(0, new AsCells(table, rows));
    verify(table, expectedRows);
  }

  /** The same for rows of which equal ones are neighbours, each of them once. */
  void writeDistinct(Table table, Iterator<Row> rows) {
    verify(table, created(table).write(0, new AsCells(table, new DistinctRows(rows))));
  }

  /** Writes a table that is small whatever the fleet. */
  void write(Table table, List<Row> rows) {
    write(table, rows.stream().sorted(new RowOrder(table)).iterator(), rows.size());
  }

  /** Rows of each table written so far. */
  Map<String, Long> rowsWritten() {
    return rowsWritten;
  }

  private TableFile created(Table table) {
    try {
      Files.createDirectories(snapshot.resolve(table.tableName()));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return TableFile.in(snapshot, table);
  }

  private void verify(Table table, long expectedRows) {
    Path folder = snapshot.resolve(table.tableName());
    try {
      WholeFile.clear(folder);
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    WrittenTable written = WrittenTable.in(folder);
    if (written.rows() != expectedRows || !written.columns().equals(names(table))) {
      throw new StoreException(
          "table %s was not written as it should be: %d rows where %d were expected"
              .formatted(table.tableName(), written.rows(), expectedRows));
    }
    rowsWritten.put(table.tableName(), written.rows());
  }

  /** Rows as rows of a table. */
  private record AsCells(Table table, Iterator<Row> rows) implements Iterator<TableRow> {
    @Override
    public boolean hasNext() {
      return rows.hasNext();
    }

    @Override
    public TableRow next() {
      return RowCells.of(table, rows.next());
    }
  }

  /**
   * Writes one partition and tells how many rows it had.
   *
   * @param first number of the file of the first partition
   */
  private record WritePart(TableFile file, int first)
      implements Function2<Integer, Iterator<TableRow>, Iterator<Long>> {
    @Override
    public Iterator<Long> call(Integer partition, Iterator<TableRow> rows) throws IOException {
      long written = file.write(first + partition, rows);
      // Spark counts by itself only what its own writers write.
      OutputMetrics told = TaskContext.get().taskMetrics().outputMetrics();
      told.setRecordsWritten(written);
      told.setBytesWritten(Files.size(file.path(first + partition)));
      return List.of(written).iterator();
    }
  }
}

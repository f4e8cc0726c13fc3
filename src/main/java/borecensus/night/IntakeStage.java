package borecensus.night;

import borecensus.intake.SheetFile;
import borecensus.intake.SheetItem;
import borecensus.night.FleetFiles.SheetPath;
import borecensus.night.LedgerRows.FileKey;
import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.DataFrameWriter;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** Sheet files that the ledger has not seen to ledger rows: one task per file. */
final class IntakeStage {
  /** Columns in which hardly two values are alike: a dictionary of them would be built in vain. */
  private static final List<String> WITHOUT_DICTIONARY =
      List.of("test_id", "row_numbers.list.element", "odometer_km");

  private IntakeStage() {}

  /** Writes what was read to a new folder. */
  static void write(Dataset<Row> read, String folder) {
    DataFrameWriter<Row> writer = read.write();
    for (String column : WITHOUT_DICTIONARY) {
      writer = writer.option("parquet.enable.dictionary#" + column, "false");
    }
    writer.parquet(folder);
  }

  /**
   * Reads sheet files.
   *
   * @param sheets files by path
   * @param firstOrder place of the first file in the order of intake; the others follow
   */
  static Dataset<Row> read(
      SparkSession spark, FleetFiles files, List<SheetPath> sheets, long firstOrder) {
    int tasks = Math.max(1, Math.min(sheets.size(), 4 * spark.sparkContext().defaultParallelism()));
    Dataset<Long> indices = spark.range(0, sheets.size(), 1, tasks).as(Encoders.LONG());
    return indices.flatMap(
        new ReadFile(files, sheets, firstOrder), Encoders.row(LedgerField.schema()));
  }

  private record ReadFile(FleetFiles files, List<SheetPath> sheets, long firstOrder)
      implements FlatMapFunction<Long, Row> {

    @Override
    public Iterator<Row> call(Long index) {
      SheetPath sheet = sheets.get(index.intValue());
      FileKey key = new FileKey(firstOrder + index, sheet.path(), sheet.contentDigest());
      return new RowsOf(key, items(sheet.path()));
    }

    private Iterator<SheetItem> items(String path) {
      try {
        return SheetFile.read(path, files.openSheet(path));
      } catch (IOException unreadable) {
        return SheetFile.unreadable(path, unreadable);
      }
    }
  }

  private record RowsOf(FileKey key, Iterator<SheetItem> items) implements Iterator<Row> {
    @Override
    public boolean hasNext() {
      return items.hasNext();
    }

    @Override
    public Row next() {
      return LedgerRows.toRow(key, items.next());
    }
  }
}

package borecensus.night;

import borecensus.intake.SheetFile;
import borecensus.intake.SheetItem;
import borecensus.night.LedgerRows.FileKey;
import java.io.IOException;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** Sheet files that the ledger has not seen, by content, to ledger rows: one task per file. */
final class IntakeStage {
  private IntakeStage() {}

  /**
   * Reads every file of the folder whose content is new.
   *
   * @param seen content digests of the files taken in before
   * @param firstOrder place of the first file in the order of intake; the others follow by path
   */
  static Dataset<Row> read(
      SparkSession spark, FleetFiles files, Set<String> seen, long firstOrder) {
    List<String> paths = files.sheetPaths();
    int tasks = Math.max(1, Math.min(paths.size(), 4 * spark.sparkContext().defaultParallelism()));
    Dataset<Long> indices = spark.range(0, paths.size(), 1, tasks).as(Encoders.LONG());
    return indices.flatMap(
        new ReadFile(files, paths, Set.copyOf(seen), firstOrder),
        Encoders.row(LedgerField.schema()));
  }

  private record ReadFile(FleetFiles files, List<String> paths, Set<String> seen, long firstOrder)
      implements FlatMapFunction<Long, Row> {

    @Override
    public Iterator<Row> call(Long index) {
      String path = paths.get(index.intValue());
      try {
        String digest = files.contentDigest(path);
        if (seen.contains(digest)) {
          return Collections.emptyIterator();
        }
        FileKey key = new FileKey(firstOrder + index, path, digest);
        return new RowsOf(key, items(path));
      } catch (IOException unreadable) {
        String digest = "unreadable " + path;
        if (seen.contains(digest)) {
          return Collections.emptyIterator();
        }
        FileKey key = new FileKey(firstOrder + index, path, digest);
        return new RowsOf(key, SheetFile.unreadable(path, unreadable));
      }
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

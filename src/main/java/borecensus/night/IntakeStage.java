package borecensus.night;

import borecensus.intake.SheetFile;
import borecensus.intake.SheetItem;
import borecensus.night.FleetFiles.SheetPath;
import borecensus.night.LedgerRows.FileKey;
import borecensus.night.LedgerStage.TakenIn;
import borecensus.night.hadoop.WholeFile;
import borecensus.night.parquet.ColumnFile;
import borecensus.publish.StoreException;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.Function2;
import org.apache.spark.executor.OutputMetrics;
import org.apache.spark.sql.SparkSession;

/**
 * Sheet files that the ledger has not seen to a batch of it: each task reads some files and writes
 * their rows straight to one.
 */
final class IntakeStage {
  private static final int TASKS_PER_CORE = 4;

  private IntakeStage() {}

  /**
   * Reads sheet files and writes a batch.
   *
   * @param sheets in the order of intake
   * @param batch its folder
   * @return the files in the same order, with what was found in them
   * @throws StoreException when the batch has not as many rows as were written to it
   */
  static List<TakenIn> write(
      SparkSession spark, FleetFiles files, List<FileKey> sheets, Path batch) {
    try {
      Files.createDirectories(batch);
      int tasks =
          Math.min(sheets.size(), TASKS_PER_CORE * spark.sparkContext().defaultParallelism());
      List<Part> parts =
          JavaSparkContext.fromSparkContext(spark.sparkContext())
              .parallelize(sheets, tasks)
              .mapPartitionsWithIndex(new WritePart(files, LedgerFile.in(batch)), true)
              .collect();
      WholeFile.clear(batch);
      verify(batch, parts.stream().mapToLong(Part::rows).sum());
      return parts.stream().flatMap(part -> part.takenIn().stream()).toList();
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  private static void verify(Path batch, long rows) {
    long written = WrittenTable.in(batch).rows();
    if (written != rows) {
      throw new StoreException(
          "the ledger was not written as it should be: %d rows where %d were expected"
              .formatted(written, rows));
    }
  }

  /** Sheet files with their places, the first of which is given. */
  static List<FileKey> inOrder(List<SheetPath> sheets, long firstOrder) {
    List<FileKey> keys = new ArrayList<>(sheets.size());
    for (SheetPath sheet : sheets) {
      keys.add(new FileKey(firstOrder + keys.size(), sheet.path(), sheet.contentDigest()));
    }
    return keys;
  }

  /** What one task has written. */
  private record Part(long rows, List<TakenIn> takenIn) implements Serializable {}

  private record WritePart(FleetFiles files, LedgerFile ledger)
      implements Function2<Integer, Iterator<FileKey>, Iterator<Part>> {

    @Override
    public Iterator<Part> call(Integer partition, Iterator<FileKey> sheets) throws IOException {
      List<TakenIn> takenIn = new ArrayList<>();
      long rows =
          ledger.write(
              partition,
              out -> {
                while (sheets.hasNext()) {
                  takenIn.add(takeIn(sheets.next(), out));
                }
              });
      // Spark counts by itself only what its own writers write.
      OutputMetrics told = TaskContext.get().taskMetrics().outputMetrics();
      told.setRecordsWritten(rows);
      told.setBytesWritten(Files.size(ledger.path(partition)));
      return List.of(new Part(rows, takenIn)).iterator();
    }

    private TakenIn takeIn(FileKey sheet, ColumnFile out) throws IOException {
      LedgerRows rows = new LedgerRows(sheet, out);
      SheetItem.End end = null;
      for (Iterator<SheetItem> items = items(sheet.sourceFile()); items.hasNext(); ) {
        SheetItem item = items.next();
        rows.write(item);
        end = item instanceof SheetItem.End last ? last : end;
      }
      return sheet.takenIn(end);
    }

    private Iterator<SheetItem> items(String path) {
      try {
        return SheetFile.read(path, files.openSheet(path));
      } catch (IOException unreadable) {
        return SheetFile.unreadable(path, unreadable);
      }
    }
  }
}

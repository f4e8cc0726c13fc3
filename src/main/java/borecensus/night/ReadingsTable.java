package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.parquet.TableRow;
import borecensus.norms.LearningPeriod;
import borecensus.publish.SnapshotStore;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/**
 * The files of the table of readings. Where norms stand for a month, readings of closed tests stand
 * in files of their own, which the nights of that month have in common, and all others in one more.
 *
 * @param histories all engines; where files of closed tests are taken over, those of all vehicles
 *     with open tests
 * @param period what the norms were learned from
 * @param counts of all histories
 * @param before files of the night before
 */
record ReadingsTable(
    Dataset<Row> histories,
    Broadcast<NightModel> model,
    LearningPeriod period,
    HistoryCounts counts,
    Optional<Before> before) {

  /**
   * The readings of the night before.
   *
   * @param folder of the table
   * @param sections of vehicles
   * @param anew sections in which readings of closed tests are no longer the same
   * @param all histories of all vehicles in every section, not made before they are asked for
   */
  record Before(
      SnapshotStore store, Path folder, int sections, Set<Integer> anew, JavaRDD<Row> all) {}

  /** Among how many files the closed tests are spread. */
  int closedFiles() {
    return TableWriter.files(counts.closedReadings());
  }

  void write(TableWriter writer) {
    if (period.equals(LearningPeriod.ALWAYS)) {
      JavaRDD<TableRow> rows =
          ReadingsStage.readings(
              histories.toJavaRDD(), model, test -> true, TableWriter.files(counts.readings()));
      writer.writeOrdered(Table.CYLINDER_READINGS, rows, counts.readings());
      return;
    }
    TableWriter.Parts parts = writer.inParts(Table.CYLINDER_READINGS);
    writeClosed(parts);
    if (counts.readings() > counts.closedReadings()) {
      Dataset<Row> open = histories.where(col("test_count").gt(col("closed_tests")));
      LearningPeriod closed = period;
      parts.write(ReadingsStage.fewReadings(open, model, test -> !closed.has(test)), closedFiles());
    }
    parts.end(counts.readings());
  }

  private void writeClosed(TableWriter.Parts parts) {
    int files = closedFiles();
    Set<Integer> written = new HashSet<>();
    for (int file = 0; file < files; file++) {
      written.add(file);
    }
    if (before.isPresent()) {
      Before b = before.get();
      written.retainAll(MergedPartitions.mergedOf(b.anew(), files, b.sections()));
      for (int file = 0; file < files; file++) {
        if (!written.contains(file)) {
          Path second = parts.path(file);
          b.store().share(b.folder().resolve(second.getFileName().toString()), second);
        }
      }
    }
    if (!written.isEmpty()) {
      JavaRDD<Row> all = before.map(Before::all).orElseGet(histories::toJavaRDD);
      LearningPeriod closed = period;
      parts.write(ReadingsStage.readings(all, model, closed::has, files), written);
    }
  }
}

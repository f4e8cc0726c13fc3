package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.ReadingsStage.Part;
import borecensus.night.ReadingsStage.Told;
import borecensus.night.parquet.TableRow;
import borecensus.norms.LearningPeriod;
import borecensus.publish.SnapshotStore;
import borecensus.tables.Table;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.IntStream;
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
    KeptRows settled,
    Broadcast<NightModel> model,
    LearningPeriod period,
    HistoryCounts counts,
    Optional<Before> before) {

  /**
   * The readings of the night before.
   *
   * @param folder of the table
   */
  record Before(SnapshotStore store, Path folder) {}

  /** Among how many files the closed tests are spread. */
  int closedFiles() {
    return TableWriter.files(counts.closedReadings());
  }

  void write(TableWriter writer) {
    if (period.equals(LearningPeriod.ALWAYS)) {
      JavaRDD<TableRow> rows =
          ReadingsStage.readings(settled, model, Told.ALL, TableWriter.files(counts.readings()));
      writer.writeOrdered(Table.CYLINDER_READINGS, rows, counts.readings());
      return;
    }
    TableWriter.Parts parts = writer.inParts(Table.CYLINDER_READINGS);
    writeClosed(parts);
    if (counts.readings() > counts.closedReadings()) {
      Dataset<Row> open =
          settled
              .rows()
              .where(
                  col("kind")
                      .equalTo(HistoryField.Kind.HISTORY.name())
                      .and(col("test_count").gt(col("closed_tests"))));
      parts.write(
          ReadingsStage.fewReadings(open, model, new Told(period, Part.OPEN)), closedFiles());
    }
    parts.end(counts.readings());
  }

  private void writeClosed(TableWriter.Parts parts) {
    if (before.isEmpty()) {
      parts.write(
          ReadingsStage.readings(settled, model, new Told(period, Part.CLOSED), closedFiles()), 0);
      return;
    }
    IntStream.range(0, closedFiles())
        .mapToObj(parts::path)
        .parallel()
        .forEach(
            second ->
                before
                    .get()
                    .store()
                    .share(before.get().folder().resolve(second.getFileName().toString()), second));
  }
}

package borecensus.night;

import static org.apache.spark.sql.functions.broadcast;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.element_at;

import borecensus.night.LedgerStage.TakenIn;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;

/** Refused records: those that could not be read, and those that did not stand. */
final class RejectionStage {
  private RejectionStage() {}

  /**
   * The refused records that are still of interest: when a file was sent again under its own name,
   * only what its newest version gets refused.
   */
  static Dataset<Row> inNewestFiles(
      Dataset<Row> ledger, Dataset<Row> settled, CarriedIntake intake) {
    Dataset<Row> replaced =
        ledger
            .sparkSession()
            .createDataset(replaced(intake.files()), Encoders.LONG())
            .toDF("file_order");
    return all(ledger, settled, intake)
        .join(broadcast(replaced), new String[] {"file_order"}, "left_anti")
        .select("source_file", "row_number", "code", "column", "value", "message");
  }

  /** The numbers of the files that came again later. */
  private static List<Long> replaced(List<TakenIn> takenIn) {
    Map<String, Long> newest = new HashMap<>();
    takenIn.forEach(file -> newest.merge(file.sourceFile(), file.fileOrder(), Math::max));
    return takenIn.stream()
        .filter(file -> file.fileOrder() < newest.get(file.sourceFile()))
        .map(TakenIn::fileOrder)
        .toList();
  }

  private static Dataset<Row> all(Dataset<Row> ledger, Dataset<Row> settled, CarriedIntake intake) {
    Dataset<Row> notStanding =
        columns(
            settled.where(col("kind").equalTo(HistoryField.Kind.REFUSED.name())).select("stray.*"));
    if (!intake.has(LedgerKind.REFUSED)) {
      // To find none would mean to read the kinds of all rows ever taken in.
      return notStanding;
    }
    Dataset<Row> unreadable =
        ledger
            .where(col("kind").equalTo(LedgerKind.REFUSED.code()))
            .withColumn("row_number", element_at(col("row_numbers"), 1));
    return columns(unreadable).unionAll(notStanding);
  }

  private static Dataset<Row> columns(Dataset<Row> rows) {
    return rows.select(
        "file_order", "source_file", "row_number", "code", "column", "value", "message");
  }
}

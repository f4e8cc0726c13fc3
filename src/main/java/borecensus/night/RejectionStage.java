package borecensus.night;

import static org.apache.spark.sql.functions.broadcast;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.element_at;
import static org.apache.spark.sql.functions.max;

import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** Refused records: those that could not be read, and those that did not stand. */
final class RejectionStage {
  private RejectionStage() {}

  /**
   * The refused records that are still of interest: when a file was sent again under its own name,
   * only what its newest version gets refused.
   */
  static Dataset<Row> inNewestFiles(Dataset<Row> ledger, Dataset<Row> settled) {
    Dataset<Row> newest =
        ledger
            .where(col("kind").equalTo(LedgerKind.FILE.code()))
            .groupBy("source_file")
            .agg(max("file_order").as("file_order"));
    return all(ledger, settled)
        .join(broadcast(newest.select("file_order")), "file_order")
        .select("source_file", "row_number", "code", "column", "value", "message");
  }

  private static Dataset<Row> all(Dataset<Row> ledger, Dataset<Row> settled) {
    Dataset<Row> unreadable =
        ledger
            .where(col("kind").equalTo(LedgerKind.REFUSED.code()))
            .withColumn("row_number", element_at(col("row_numbers"), 1));
    Dataset<Row> notStanding =
        settled.where(col("kind").equalTo(HistoryField.Kind.REFUSED.name())).select("stray.*");
    return columns(unreadable).unionAll(columns(notStanding));
  }

  private static Dataset<Row> columns(Dataset<Row> rows) {
    return rows.select(
        "file_order", "source_file", "row_number", "code", "column", "value", "message");
  }
}

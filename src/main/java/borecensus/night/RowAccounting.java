package borecensus.night;

import static org.apache.spark.sql.functions.sum;

import borecensus.night.LedgerStage.TakenIn;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** What has become of every record ever read. */
final class RowAccounting {
  private RowAccounting() {}

  /** Refused rows by code. */
  static Map<String, Long> byCode(Dataset<Row> rejected) {
    Map<String, Long> byCode = new TreeMap<>();
    for (Row row : rejected.groupBy("code").count().collectAsList()) {
      byCode.put(row.getString(0), row.getLong(1));
    }
    return byCode;
  }

  /** Counts every kind of record by itself, so that a lost one is noticed. */
  static RowCounts count(SnapshotTables.Sources sources, long rejected) {
    long read = sources.takenIn().stream().mapToLong(TakenIn::records).sum();
    Map<String, Long> ledgerKinds = kinds(sources.ledger());
    Map<String, Long> settledKinds = kinds(sources.settled());
    long refused =
        ledgerKinds.getOrDefault(LedgerKind.REFUSED.code(), 0L)
            + settledKinds.getOrDefault(HistoryField.Kind.REFUSED.name(), 0L);
    long superseded =
        ledgerKinds.getOrDefault(LedgerKind.REPEATED.code(), 0L)
            + settledKinds.getOrDefault(HistoryField.Kind.SUPERSEDED.name(), 0L)
            + (refused - rejected);
    Row accepted = sources.histories().agg(sum("records")).first();
    return new RowCounts(
        read, accepted.isNullAt(0) ? 0 : accepted.getLong(0), rejected, superseded);
  }

  private static Map<String, Long> kinds(Dataset<Row> rows) {
    Map<String, Long> kinds = new TreeMap<>();
    for (Row row : rows.groupBy("kind").count().collectAsList()) {
      kinds.put(row.getString(0), row.getLong(1));
    }
    return kinds;
  }
}

package borecensus.night;

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
    SettledCounts settled = sources.counts();
    long refused =
        ledgerKinds.getOrDefault(LedgerKind.REFUSED.code(), 0L)
            + settled.rows(HistoryField.Kind.REFUSED);
    long superseded =
        ledgerKinds.getOrDefault(LedgerKind.REPEATED.code(), 0L)
            + settled.rows(HistoryField.Kind.SUPERSEDED)
            + (refused - rejected);
    return new RowCounts(read, settled.records(), rejected, superseded);
  }

  private static Map<String, Long> kinds(Dataset<Row> rows) {
    Map<String, Long> kinds = new TreeMap<>();
    for (Row row : rows.groupBy("kind").count().collectAsList()) {
      kinds.put(row.getString(0), row.getLong(1));
    }
    return kinds;
  }
}

package borecensus.night;

import java.util.Map;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** What has become of every record ever read. */
final class RowAccounting {
  private RowAccounting() {}

  /** Refused rows by code. */
  static Map<String, Long> byCode(Dataset<Row> rejected) {
    return TextCounts.of(rejected.select("code"));
  }

  /** Counts every kind of record by itself, so that a lost one is noticed. */
  static RowCounts count(SnapshotTables.Sources sources, long rejected) {
    long read = sources.intake().records();
    Map<String, Long> ledgerKinds = sources.intake().kinds();
    SettledCounts settled = sources.counts();
    long refused =
        ledgerKinds.getOrDefault(LedgerKind.REFUSED.code(), 0L)
            + settled.rows(HistoryField.Kind.REFUSED);
    long superseded =
        ledgerKinds.getOrDefault(LedgerKind.REPEATED.code(), 0L)
            + settled.rows(HistoryField.Kind.SUPERSEDED)
            + (refused - rejected);
    return new RowCounts(read, settled.inAll().records(), rejected, superseded);
  }
}

package borecensus.night;

import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** What has become of every record ever read. */
final class RowAccounting {
  private RowAccounting() {}

  /** Refused rows by code. */
  static Map<String, Long> byCode(Dataset<Row> rejected) {
    Map<String, Long> byCode = new TreeMap<>();
    for (Map<String, Long> part :
        rejected.select("code").toJavaRDD().mapPartitions(new CountCodes()).collect()) {
      part.forEach((code, count) -> byCode.merge(code, count, Long::sum));
    }
    return byCode;
  }

  private static final class CountCodes
      implements FlatMapFunction<Iterator<Row>, Map<String, Long>> {
    @Override
    public Iterator<Map<String, Long>> call(Iterator<Row> rows) {
      Map<String, Long> counts = new TreeMap<>();
      rows.forEachRemaining(row -> counts.merge(row.getString(0), 1L, Long::sum));
      return List.of(counts).iterator();
    }
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

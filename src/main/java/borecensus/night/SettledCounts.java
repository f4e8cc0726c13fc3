package borecensus.night;

import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.count;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.sum;
import static org.apache.spark.sql.functions.when;

import java.util.EnumMap;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/**
 * What settling came to, counted in one pass.
 *
 * @param rows of each kind but histories
 * @param histories by family_id
 */
record SettledCounts(Map<HistoryField.Kind, Long> rows, Map<String, HistoryCounts> histories) {
  static SettledCounts of(Dataset<Row> settled) {
    Map<HistoryField.Kind, Long> rows = new EnumMap<>(HistoryField.Kind.class);
    Map<String, HistoryCounts> histories = new TreeMap<>();
    for (Row row :
        settled
            .groupBy("kind", "family_id")
            .agg(
                count(lit(1)),
                total(col("records")),
                total(when(col("test_count").gt(0), 1L)),
                total(col("test_count")),
                total(col("dry_readings")),
                total(when(col("closed_tests").gt(0), 1L)),
                total(col("closed_readings")))
            .collectAsList()) {
      HistoryField.Kind kind = HistoryField.Kind.valueOf(row.getString(0));
      if (kind == HistoryField.Kind.HISTORY) {
        histories.put(
            row.getString(1),
            new HistoryCounts(
                row.getLong(2),
                row.getLong(3),
                row.getLong(4),
                row.getLong(5),
                row.getLong(6),
                row.getLong(7),
                row.getLong(8)));
      } else {
        rows.merge(kind, row.getLong(2), Long::sum);
      }
    }
    return new SettledCounts(rows, histories);
  }

  private static Column total(Column column) {
    return coalesce(sum(column), lit(0L));
  }

  /** The same with more histories, by family_id. */
  SettledCounts with(Map<String, HistoryCounts> more) {
    Map<String, HistoryCounts> all = new TreeMap<>(histories);
    more.forEach((family, counts) -> all.merge(family, counts, HistoryCounts::plus));
    return new SettledCounts(rows, all);
  }

  /** All histories. */
  HistoryCounts inAll() {
    return histories.values().stream().reduce(HistoryCounts.NONE, HistoryCounts::plus);
  }

  long rows(HistoryField.Kind kind) {
    return rows.getOrDefault(kind, 0L);
  }
}

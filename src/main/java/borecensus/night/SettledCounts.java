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
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/**
 * What settling came to, counted in one pass.
 *
 * @param rows of each kind
 * @param records that the tests of all histories came from
 * @param tested histories with tests
 * @param testedByFamily the same by family_id
 * @param tests in all histories
 * @param dryReadings cylinders of their dry tests, read or not
 */
record SettledCounts(
    Map<HistoryField.Kind, Long> rows,
    long records,
    long tested,
    Map<String, Long> testedByFamily,
    long tests,
    long dryReadings) {
  static SettledCounts of(Dataset<Row> settled) {
    Map<HistoryField.Kind, Long> rows = new EnumMap<>(HistoryField.Kind.class);
    Map<String, Long> testedByFamily = new TreeMap<>();
    long[] sums = new long[4];
    for (Row row :
        settled
            .groupBy("kind", "family_id")
            .agg(
                count(lit(1)),
                coalesce(sum("records"), lit(0L)),
                coalesce(sum(when(col("test_count").gt(0), 1L)), lit(0L)),
                coalesce(sum("test_count"), lit(0L)),
                coalesce(sum("dry_readings"), lit(0L)))
            .collectAsList()) {
      HistoryField.Kind kind = HistoryField.Kind.valueOf(row.getString(0));
      rows.merge(kind, row.getLong(2), Long::sum);
      if (kind == HistoryField.Kind.HISTORY) {
        testedByFamily.put(row.getString(1), row.getLong(4));
        for (int i = 0; i < sums.length; i++) {
          sums[i] += row.getLong(3 + i);
        }
      }
    }
    return new SettledCounts(rows, sums[0], sums[1], testedByFamily, sums[2], sums[3]);
  }

  long rows(HistoryField.Kind kind) {
    return rows.getOrDefault(kind, 0L);
  }
}

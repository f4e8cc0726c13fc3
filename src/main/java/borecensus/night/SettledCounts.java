package borecensus.night;

import java.io.Serializable;
import java.util.EnumMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.catalyst.InternalRow;

/**
 * What settling came to, counted in one pass.
 *
 * @param rows of each kind but histories
 * @param histories by family_id
 */
record SettledCounts(Map<HistoryField.Kind, Long> rows, Map<String, HistoryCounts> histories)
    implements Serializable {

  /** Counts rows of {@link HistoryField}; a part of at most families x counts is gathered. */
  static SettledCounts of(KeptRows settled) {
    List<SettledCounts> parts =
        settled.internalRows().mapPartitions(rows -> List.of(of(rows)).iterator()).collect();
    SettledCounts all = none();
    parts.forEach(all::add);
    return all;
  }

  private static SettledCounts of(Iterator<InternalRow> rows) {
    SettledCounts part = none();
    rows.forEachRemaining(part::add);
    return part;
  }

  private static SettledCounts none() {
    return new SettledCounts(new EnumMap<>(HistoryField.Kind.class), new TreeMap<>());
  }

  private void add(InternalRow row) {
    HistoryField.Kind kind = HistoryField.kind(row);
    if (kind == HistoryField.Kind.HISTORY) {
      String familyId = row.getUTF8String(HistoryField.FAMILY_ID.ordinal()).toString();
      histories.merge(familyId, HistoryCounts.of(row), HistoryCounts::plus);
    } else {
      rows.merge(kind, 1L, Long::sum);
    }
  }

  private void add(SettledCounts part) {
    part.rows.forEach((kind, n) -> rows.merge(kind, n, Long::sum));
    part.histories.forEach((family, n) -> histories.merge(family, n, HistoryCounts::plus));
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

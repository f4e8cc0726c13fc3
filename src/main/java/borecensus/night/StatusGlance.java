package borecensus.night;

import borecensus.report.ReportData.Staleness;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;

/** What the morning page tells of all screened engines, gathered in one pass over them. */
final class StatusGlance implements Serializable {
  private final Map<StatusList, FirstRows> lists = new EnumMap<>(StatusList.class);

  private StatusGlance() {
    for (StatusList list : StatusList.values()) {
      lists.put(list, new FirstRows(list));
    }
  }

  static StatusGlance of(Dataset<Row> statuses, LocalDate asOf) {
    LocalDate oldBefore = asOf.minusDays(Staleness.OLD_AFTER_DAYS);
    StatusGlance all = new StatusGlance();
    StatusColumn.of(statuses)
        .toJavaRDD()
        .mapPartitions(new Look(oldBefore))
        .collect()
        .forEach(all::add);
    return all;
  }

  /** How many engines a list would have, were it not bounded. */
  long count(StatusList list) {
    return lists.get(list).count();
  }

  /** The first engines of a list, as {@link StatusColumn} has them. */
  List<Row> first(StatusList list) {
    return lists.get(list).rows();
  }

  private void add(StatusGlance part) {
    lists.forEach((list, rows) -> rows.addAll(part.lists.get(list)));
  }

  private record Look(LocalDate oldBefore) implements FlatMapFunction<Iterator<Row>, StatusGlance> {
    @Override
    public Iterator<StatusGlance> call(Iterator<Row> statuses) {
      StatusGlance glance = new StatusGlance();
      while (statuses.hasNext()) {
        Row status = statuses.next();
        glance.lists.forEach(
            (list, rows) -> {
              if (list.takes(status, oldBefore)) {
                rows.add(status);
              }
            });
      }
      return List.of(glance).iterator();
    }
  }
}

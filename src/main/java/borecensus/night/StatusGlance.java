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
import org.apache.spark.sql.catalyst.InternalRow;

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
    // Rows as Spark computes with them: the few that are kept become values, the millions do not.
    StatusColumn.of(statuses)
        .queryExecution()
        .toRdd()
        .toJavaRDD()
        .mapPartitions(new Look(Math.toIntExact(oldBefore.toEpochDay())))
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

  private record Look(int oldBeforeEpochDay)
      implements FlatMapFunction<Iterator<InternalRow>, StatusGlance> {
    @Override
    public Iterator<StatusGlance> call(Iterator<InternalRow> statuses) {
      StatusGlance glance = new StatusGlance();
      FirstRows[] lists = glance.lists.values().toArray(FirstRows[]::new);
      while (statuses.hasNext()) {
        InternalRow status = statuses.next();
        for (FirstRows list : lists) {
          list.look(status, oldBeforeEpochDay);
        }
      }
      return List.of(glance).iterator();
    }
  }
}

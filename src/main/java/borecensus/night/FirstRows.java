package borecensus.night;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.Row;

/** The first few of many rows, in the order of their list, and how many there are; mergeable. */
final class FirstRows implements Serializable {
  private final StatusList list;
  private List<Row> kept = new ArrayList<>();
  private long count;

  FirstRows(StatusList list) {
    this.list = list;
  }

  void add(Row row) {
    count++;
    kept.add(row);
    // Sorting once in so many rows costs less than keeping them sorted.
    if (kept.size() > 2 * list.length()) {
      kept = rows();
    }
  }

  /** Takes in what was found elsewhere. */
  void addAll(FirstRows other) {
    count += other.count;
    kept.addAll(other.kept);
    kept = rows();
  }

  long count() {
    return count;
  }

  /** The first rows, in order. */
  List<Row> rows() {
    List<Row> rows = new ArrayList<>(kept);
    rows.sort(list.order());
    return new ArrayList<>(rows.subList(0, Math.min(list.length(), rows.size())));
  }
}

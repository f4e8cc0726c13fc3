package borecensus.night;

import java.io.Serializable;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;

/** The first few of many rows, in the order of their list, and how many there are; mergeable. */
final class FirstRows implements Serializable {
  private final StatusList list;

  /** The last of those kept is the first that gives way. */
  private final PriorityQueue<Placed> kept = new PriorityQueue<>(Comparator.reverseOrder());

  private long count;

  FirstRows(StatusList list) {
    this.list = list;
  }

  /** Counts a status if it is one for the list, and keeps a copy if it is among the first. */
  void look(InternalRow status, int oldBeforeEpochDay) {
    if (list.takes(status, oldBeforeEpochDay)) {
      count++;
      if (list.length() > 0 && isAmongFirst(status)) {
        keep(Placed.copyOf(status, list));
      }
    }
  }

  /** Nearly all of a large fleet come after those kept, and are not worth a copy. */
  private boolean isAmongFirst(InternalRow status) {
    return kept.size() < list.length() || kept.peek().isAfter(status, list);
  }

  private void keep(Placed row) {
    kept.add(row);
    if (kept.size() > list.length()) {
      kept.remove();
    }
  }

  /** Takes in what was found elsewhere. */
  void addAll(FirstRows other) {
    count += other.count;
    other.kept.forEach(this::keep);
  }

  long count() {
    return count;
  }

  /** The first rows, in order. */
  List<Row> rows() {
    return kept.stream().sorted().map(Placed::row).toList();
  }

  /**
   * A row at its place in its list; at equal places by vehicle, in the byte order of UTF-8, as
   * Spark orders text.
   */
  private record Placed(long place, UTF8String vehicleId, Row row)
      implements Comparable<Placed>, Serializable {

    static Placed copyOf(InternalRow status, StatusList list) {
      return new Placed(
          list.place(status),
          StatusColumn.VEHICLE_ID.text(status).copy(),
          StatusColumn.row(status));
    }

    boolean isAfter(InternalRow status, StatusList list) {
      long other = list.place(status);
      return place > other
          || (place == other && vehicleId.compareTo(StatusColumn.VEHICLE_ID.text(status)) > 0);
    }

    @Override
    public int compareTo(Placed other) {
      int order = Long.compare(place, other.place);
      return order != 0 ? order : vehicleId.compareTo(other.vehicleId);
    }
  }
}

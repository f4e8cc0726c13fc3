package borecensus.night;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.function.Function;
import org.apache.spark.unsafe.types.UTF8String;

/** What becomes of neighbouring histories of one vehicle, vehicle by vehicle. */
final class EachVehicle<T> implements Iterator<T> {
  private final Iterator<PackedHistory> histories;
  private final Function<List<PackedHistory>, Iterator<T>> toRows;
  private PackedHistory ahead;
  private Iterator<T> made = Collections.emptyIterator();

  EachVehicle(
      Iterator<PackedHistory> histories, Function<List<PackedHistory>, Iterator<T>> toRows) {
    this.histories = histories;
    this.toRows = toRows;
    this.ahead = following();
  }

  private PackedHistory following() {
    return histories.hasNext() ? histories.next() : null;
  }

  @Override
  public boolean hasNext() {
    while (!made.hasNext() && ahead != null) {
      made = toRows.apply(vehicle());
    }
    return made.hasNext();
  }

  private List<PackedHistory> vehicle() {
    UTF8String vehicleId = ahead.vehicleId();
    List<PackedHistory> vehicle = new ArrayList<>();
    while (ahead != null && ahead.vehicleId().equals(vehicleId)) {
      vehicle.add(ahead);
      ahead = following();
    }
    return vehicle;
  }

  @Override
  public T next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return made.next();
  }
}

package borecensus.night;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.function.Function;
import org.apache.spark.sql.Row;

/** What becomes of neighbouring rows of one vehicle, vehicle by vehicle. */
final class EachVehicle<T> implements Iterator<T> {
  private final Iterator<Row> rows;
  private final int vehicleField;
  private final Function<List<Row>, Iterator<T>> toRows;
  private Row ahead;
  private Iterator<T> made = Collections.emptyIterator();

  EachVehicle(Iterator<Row> rows, int vehicleField, Function<List<Row>, Iterator<T>> toRows) {
    this.rows = rows;
    this.vehicleField = vehicleField;
    this.toRows = toRows;
    this.ahead = rows.hasNext() ? rows.next() : null;
  }

  @Override
  public boolean hasNext() {
    while (!made.hasNext() && ahead != null) {
      made = toRows.apply(vehicle());
    }
    return made.hasNext();
  }

  private List<Row> vehicle() {
    String vehicleId = ahead.getString(vehicleField);
    List<Row> vehicle = new ArrayList<>();
    while (ahead != null && ahead.getString(vehicleField).equals(vehicleId)) {
      vehicle.add(ahead);
      ahead = rows.hasNext() ? rows.next() : null;
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

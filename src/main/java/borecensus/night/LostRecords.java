package borecensus.night;

import borecensus.packed.RecordPlace;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.spark.sql.Row;

/**
 * The records of one section that were lost to sheets of other vehicles.
 *
 * @param rows as rows of histories: the records, then a fact for each vehicle concerned
 * @param places of the records
 * @param hashes of the places of each vehicle
 */
record LostRecords(List<Row> rows, Set<RecordPlace> places, Map<String, Long> hashes) {

  static LostRecords of(Iterator<Row> lost) {
    List<Row> rows = new ArrayList<>();
    Set<RecordPlace> places = new HashSet<>();
    Map<String, Long> hashes = new HashMap<>();
    while (lost.hasNext()) {
      Row row = lost.next();
      RecordPlace place = place(row);
      rows.add(row);
      places.add(place);
      // A sum does not depend on the order in which the records come.
      long hash = TextHash.of(place.fileOrder() + " " + place.rowNumber());
      hashes.merge(row.getString(HistoryField.VEHICLE_ID.ordinal()), hash, Long::sum);
    }
    hashes.forEach((id, hash) -> rows.add(HistoryRows.fact(HistoryField.Kind.LOST, id, hash)));
    return new LostRecords(rows, places, hashes);
  }

  private static RecordPlace place(Row row) {
    Row stray = row.getStruct(HistoryField.STRAY.ordinal());
    return new RecordPlace(
        stray.getLong(StrayField.FILE_ORDER.ordinal()),
        stray.getLong(StrayField.ROW_NUMBER.ordinal()));
  }

  /** Of a vehicle that has lost nothing 0. */
  long hash(String vehicleId) {
    return hashes.getOrDefault(vehicleId, 0L);
  }
}

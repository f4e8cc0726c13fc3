package borecensus.night;

import borecensus.domain.EngineHistory;
import borecensus.packed.HistoryBytes;
import java.io.Serializable;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * A history by itself, with the vehicle by which histories are ordered.
 *
 * @param bytes as {@link HistoryBytes} reads them
 */
record PackedHistory(UTF8String vehicleId, byte[] bytes) implements Serializable {

  /** Of a row of {@link HistoryField} that is a history; it holds when the row is overwritten. */
  static PackedHistory of(InternalRow row) {
    return new PackedHistory(
        row.getUTF8String(HistoryField.VEHICLE_ID.ordinal()).clone(),
        row.getBinary(HistoryField.HISTORY.ordinal()));
  }

  /** Of such a row as values. */
  static PackedHistory of(Row row) {
    return new PackedHistory(
        UTF8String.fromString(row.getString(HistoryField.VEHICLE_ID.ordinal())),
        row.getAs(HistoryField.HISTORY.ordinal()));
  }

  EngineHistory history() {
    return HistoryBytes.read(bytes);
  }
}

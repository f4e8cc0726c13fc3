package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;

/**
 * What a night hands to the next of one registered vehicle, so that it need not be settled and
 * judged anew while there is no news of it.
 *
 * @param settledEachNight whether more is needed of it than its row: it has open tests, findings,
 *     records that do not stand, or may be marked
 * @param ahead whether it has dates after the night
 * @param changed whether there was news of it since the last night that judged all engines
 * @param lostHash of the records that it has lost to other vehicles; 0 for none
 * @param histories of its engines
 * @param screened its row as screening left it, in Spark's own bytes; null when not asked for
 */
record CarriedVehicle(
    String vehicleId,
    String familyId,
    boolean settledEachNight,
    boolean ahead,
    boolean changed,
    long lostHash,
    HistoryCounts histories,
    byte[] screened) {
  private static final int SETTLED_EACH_NIGHT = 1;
  private static final int AHEAD = 2;
  private static final int CHANGED = 4;

  void write(ByteWriter out) {
    out.text(vehicleId);
    out.text(familyId);
    out.count(
        (settledEachNight ? SETTLED_EACH_NIGHT : 0)
            | (ahead ? AHEAD : 0)
            | (changed ? CHANGED : 0));
    out.whole(lostHash);
    histories.write(out);
    out.utf8(screened);
  }

  static CarriedVehicle read(ByteReader in) {
    CarriedVehicle head = head(in);
    return head.withScreened(in.bytes());
  }

  /** The same without its row. */
  static CarriedVehicle readHead(ByteReader in) {
    CarriedVehicle head = head(in);
    in.skipBytes();
    return head;
  }

  private static CarriedVehicle head(ByteReader in) {
    String vehicleId = in.text();
    String familyId = in.text();
    long flags = in.count();
    return new CarriedVehicle(
        vehicleId,
        familyId,
        (flags & SETTLED_EACH_NIGHT) != 0,
        (flags & AHEAD) != 0,
        (flags & CHANGED) != 0,
        in.whole(),
        HistoryCounts.read(in),
        null);
  }

  CarriedVehicle withScreened(byte[] row) {
    return new CarriedVehicle(
        vehicleId, familyId, settledEachNight, ahead, changed, lostHash, histories, row);
  }
}

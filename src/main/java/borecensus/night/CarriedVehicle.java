package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import java.util.EnumSet;
import java.util.Set;

/**
 * What a night hands to the next of one registered vehicle, so that it need not be settled and
 * judged anew while there is no news of it.
 *
 * @param lostHash of the records that it has lost to other vehicles; 0 for none
 * @param histories of its engines
 * @param screened its row as screening left it, in Spark's own bytes; null when not asked for
 */
record CarriedVehicle(
    String vehicleId,
    String familyId,
    Set<Mark> marks,
    long lostHash,
    HistoryCounts histories,
    byte[] screened) {

  /** What is to be known of it before anything else. */
  enum Mark {
    /** It has open tests, findings, records that do not stand, or a page of its own. */
    SETTLED_EACH_NIGHT,
    /** It has dates after the night. */
    AHEAD,
    /** There was news of it since the last night that judged all engines. */
    CHANGED,
    /** Its row holds what the work list would say. */
    BRIEFED
  }

  boolean is(Mark mark) {
    return marks.contains(mark);
  }

  void write(ByteWriter out) {
    out.text(vehicleId);
    out.text(familyId);
    long bits = 0;
    for (Mark mark : marks) {
      bits |= 1L << mark.ordinal();
    }
    out.count(bits);
    out.whole(lostHash);
    histories.write(out);
    out.utf8(screened);
  }

  static CarriedVehicle read(ByteReader in) {
    return head(in).withScreened(in.bytes());
  }

  /** The same without its row. */
  static CarriedVehicle readHead(ByteReader in) {
    CarriedVehicle head = head(in);
    in.skipBytes();
    return head;
  }

  private static CarriedVehicle head(ByteReader in) {
    return new CarriedVehicle(
        in.text(), in.text(), marks(in.count()), in.whole(), HistoryCounts.read(in), null);
  }

  private static Set<Mark> marks(long bits) {
    if (bits == 0) {
      return Set.of();
    }
    Set<Mark> marks = EnumSet.noneOf(Mark.class);
    for (Mark mark : Mark.values()) {
      if ((bits & 1L << mark.ordinal()) != 0) {
        marks.add(mark);
      }
    }
    return marks;
  }

  private CarriedVehicle withScreened(byte[] row) {
    return new CarriedVehicle(vehicleId, familyId, marks, lostHash, histories, row);
  }
}

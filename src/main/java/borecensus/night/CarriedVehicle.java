package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import java.util.EnumSet;
import java.util.Set;

/**
 * What a night hands to the next of one registered vehicle, so that it need not be settled and
 * judged anew while there is no news of it; its screened row stands elsewhere, at the same place.
 *
 * @param lostHash of the records that it has lost to other vehicles; 0 for none
 * @param histories of its engines
 * @param priority of its engine on a work list; 0 where the list would say nothing of it
 */
record CarriedVehicle(
    String vehicleId,
    String familyId,
    Set<Mark> marks,
    long lostHash,
    HistoryCounts histories,
    double priority) {
  private static final Mark[] MARKS = Mark.values();

  /** What is to be known of it before anything else. */
  enum Mark {
    /** It has open tests, findings, records that do not stand, or a page of its own. */
    SETTLED_EACH_NIGHT,
    /** It has dates after the night. */
    AHEAD,
    /** There was news of it since the last night that judged all engines. */
    CHANGED,
    /** Its row holds what the work list would say. */
    BRIEFED;

    long bit() {
      return 1L << ordinal();
    }
  }

  boolean is(Mark mark) {
    return marks.contains(mark);
  }

  void write(ByteWriter out) {
    out.text(vehicleId);
    long bits = 0;
    for (Mark mark : marks) {
      bits |= mark.bit();
    }
    out.count(bits);
    out.whole(lostHash);
    out.text(familyId);
    histories.write(out);
    out.real(priority);
  }

  static CarriedVehicle read(ByteReader in) {
    String vehicleId = in.text();
    Set<Mark> marks = marks(in.count());
    long lostHash = in.whole();
    return new CarriedVehicle(
        vehicleId, in.text(), marks, lostHash, HistoryCounts.read(in), in.real());
  }

  private static Set<Mark> marks(long bits) {
    if (bits == 0) {
      return Set.of();
    }
    Set<Mark> marks = EnumSet.noneOf(Mark.class);
    for (Mark mark : MARKS) {
      if ((bits & mark.bit()) != 0) {
        marks.add(mark);
      }
    }
    return marks;
  }

  CarriedVehicle with(Mark mark) {
    Set<Mark> all = EnumSet.of(mark);
    all.addAll(marks);
    return new CarriedVehicle(vehicleId, familyId, all, lostHash, histories, priority);
  }
}

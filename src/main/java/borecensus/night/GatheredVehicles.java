package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import borecensus.packed.IdTable;
import borecensus.packed.KnownTexts;
import borecensus.packed.RecordPlace;
import borecensus.packed.SheetBytes;
import borecensus.packed.VehicleGatherer;
import borecensus.packed.VehicleRecord;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Set;

/**
 * The vehicles of one partition, made of its blocks one at a time, in the byte order of their ids.
 * The blocks themselves are held: some ten megabytes, whatever the fleet.
 */
final class GatheredVehicles implements Iterable<GatheredVehicle> {
  private static final int NONE = -1;

  private final List<byte[]> blocks = new ArrayList<>();
  private final IdTable ids = new IdTable();
  private final KnownTexts known = new KnownTexts();

  /** Of each vehicle its first and its last record. */
  private int[] first = new int[16];

  private int[] last = new int[16];
  private int vehicles;

  /** Of each record where it stands, without its vehicle, and the next one of its vehicle. */
  private int[] block = new int[64];

  private int[] place = new int[64];
  private int[] end = new int[64];
  private int[] next = new int[64];
  private int records;

  /** All vehicles of some blocks. */
  GatheredVehicles(Iterator<byte[]> blocks) {
    this(blocks, (bytes, from, length) -> true);
  }

  /** Those of them that are wanted. */
  GatheredVehicles(Iterator<byte[]> blocks, Wanted wanted) {
    while (blocks.hasNext()) {
      byte[] bytes = blocks.next();
      find(bytes, wanted);
      this.blocks.add(bytes);
    }
  }

  /** Which vehicles are wanted, by their ids in UTF-8. */
  @FunctionalInterface
  interface Wanted {
    /** Whether the vehicle is whose id stands there. */
    boolean has(byte[] bytes, int from, int length);
  }

  private void find(byte[] bytes, Wanted wanted) {
    ByteReader in = new ByteReader(bytes);
    while (in.hasMore()) {
      int length = (int) in.count();
      int end = in.position() + length;
      int idLength = (int) in.count() - 1;
      int idFrom = in.position();
      if (wanted.has(bytes, idFrom, idLength)) {
        add(ids.add(bytes, idFrom, idLength), idFrom + idLength, end);
      }
      in.skip(end - idFrom);
    }
  }

  private void add(int vehicle, int from, int to) {
    if (records == next.length) {
      block = Arrays.copyOf(block, 2 * records);
      place = Arrays.copyOf(place, 2 * records);
      end = Arrays.copyOf(end, 2 * records);
      next = Arrays.copyOf(next, 2 * records);
    }
    if (vehicle == first.length) {
      first = Arrays.copyOf(first, 2 * vehicle);
      last = Arrays.copyOf(last, 2 * vehicle);
    }
    block[records] = blocks.size();
    place[records] = from;
    end[records] = to;
    next[records] = NONE;
    if (vehicle == vehicles) {
      first[vehicle] = records;
      vehicles++;
    } else {
      next[last[vehicle]] = records;
    }
    last[vehicle] = records;
    records++;
  }

  /** The ids of all vehicles, in their byte order. */
  List<String> ids() {
    int[] inOrder = inOrder();
    String[] texts = new String[inOrder.length];
    Arrays.setAll(texts, i -> ids.text(inOrder[i]));
    return List.of(texts);
  }

  /** Whether anything is known of a vehicle. */
  boolean has(String vehicleId) {
    return ids.find(vehicleId) >= 0;
  }

  /** What is known of a vehicle, be it nothing. */
  GatheredVehicle get(String vehicleId) {
    int vehicle = ids.find(vehicleId);
    return vehicle < 0 ? new GatheredVehicle(vehicleId, null, List.of()) : at(vehicle);
  }

  private GatheredVehicle at(int vehicle) {
    String vehicleId = ids.text(vehicle);
    VehicleGatherer gatherer = new VehicleGatherer(vehicleId, known);
    for (int record = first[vehicle]; record != NONE; record = next[record]) {
      gatherer.add(new ByteReader(blocks.get(block[record]), place[record]));
    }
    return new GatheredVehicle(vehicleId, gatherer.file(), gatherer.sheets());
  }

  /** The numbers of all vehicles, in the byte order of their ids. */
  int[] inOrder() {
    return ids.inOrder();
  }

  /** The id of a vehicle of this number, in UTF-8. */
  byte[] id(int vehicle) {
    return ids.utf8(vehicle);
  }

  /** Whether the register of vehicles has the vehicle of this number. */
  boolean isRegistered(int vehicle) {
    for (int record = first[vehicle]; record != NONE; record = next[record]) {
      ByteReader in = new ByteReader(blocks.get(block[record]), place[record]);
      if (VehicleGatherer.kind(in) == VehicleRecord.VEHICLE) {
        return true;
      }
    }
    return false;
  }

  /**
   * Copies what is known of a vehicle, be it nothing, as a {@link VehicleGatherer} reads it.
   *
   * @param lost records that are left out
   */
  void copy(String vehicleId, Set<RecordPlace> lost, ByteWriter out) {
    int vehicle = ids.find(vehicleId);
    if (vehicle >= 0) {
      copy(vehicle, lost, out);
    }
  }

  /** The same of the vehicle of this number. */
  void copy(int vehicle, Set<RecordPlace> lost, ByteWriter out) {
    List<Part> parts = new ArrayList<>();
    for (int record = first[vehicle]; record != NONE; record = next[record]) {
      Part part = new Part(blocks.get(block[record]), place[record], end[record]);
      if (lost.isEmpty() || !part.isOneOf(lost)) {
        parts.add(part);
      }
    }
    // Blocks come in any order.
    Collections.sort(parts);
    for (Part part : parts) {
      out.written(part.block(), part.from(), part.to() - part.from());
    }
  }

  /** A record among others. */
  private record Part(byte[] block, int from, int to) implements Comparable<Part> {
    /** Every record of a lost test is in the list, so the first one tells. */
    boolean isOneOf(Set<RecordPlace> lost) {
      ByteReader in = new ByteReader(block, from);
      return VehicleGatherer.kind(in) == VehicleRecord.TEST && lost.contains(SheetBytes.place(in));
    }

    @Override
    public int compareTo(Part other) {
      return Arrays.compareUnsigned(block, from, to, other.block, other.from, other.to);
    }
  }

  /** All vehicles, in the order of their ids; each is made when it is taken. */
  @Override
  public Iterator<GatheredVehicle> iterator() {
    int[] inOrder = inOrder();
    return new Iterator<>() {
      private int taken;

      @Override
      public boolean hasNext() {
        return taken < inOrder.length;
      }

      @Override
      public GatheredVehicle next() {
        return at(inOrder[taken++]);
      }
    };
  }
}

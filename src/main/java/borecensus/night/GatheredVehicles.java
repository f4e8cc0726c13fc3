package borecensus.night;

import borecensus.ledger.LedgerSheet;
import borecensus.packed.ByteReader;
import borecensus.packed.IdTable;
import borecensus.packed.KnownTexts;
import borecensus.packed.RegisterBytes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;

/**
 * The vehicles of one partition, made of its blocks one at a time, in the byte order of their ids.
 * The blocks themselves are held: some ten megabytes, whatever the fleet.
 */
final class GatheredVehicles implements Iterable<GatheredVehicle> {
  private static final VehicleRecord[] KINDS = VehicleRecord.values();
  private static final int NONE = -1;

  private final List<byte[]> blocks = new ArrayList<>();
  private final IdTable ids = new IdTable();
  private final KnownTexts known = new KnownTexts();

  /** Of each vehicle its first and its last record. */
  private int[] first = new int[16];

  private int[] last = new int[16];
  private int vehicles;

  /** Of each record where it stands, and the next one of its vehicle. */
  private int[] block = new int[64];

  private int[] place = new int[64];
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
        add(ids.add(bytes, idFrom, idLength), idFrom + idLength);
      }
      in.skip(end - idFrom);
    }
  }

  private void add(int vehicle, int from) {
    if (records == next.length) {
      block = Arrays.copyOf(block, 2 * records);
      place = Arrays.copyOf(place, 2 * records);
      next = Arrays.copyOf(next, 2 * records);
    }
    if (vehicle == first.length) {
      first = Arrays.copyOf(first, 2 * vehicle);
      last = Arrays.copyOf(last, 2 * vehicle);
    }
    block[records] = blocks.size();
    place[records] = from;
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
    int[] inOrder = ids.inOrder();
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
    RegisterBytes.Gatherer register = new RegisterBytes.Gatherer(vehicleId);
    List<LedgerSheet> sheets = new ArrayList<>();
    for (int record = first[vehicle]; record != NONE; record = next[record]) {
      ByteReader in = new ByteReader(blocks.get(block[record]), place[record]);
      switch (in.word(KINDS)) {
        case VEHICLE -> register.addVehicle(in);
        case REPAIR -> register.addRepair(in);
        case FINDING -> register.addFinding(in);
        case TEST -> sheets.add(SheetBytes.read(vehicleId, in, known));
      }
    }
    return new GatheredVehicle(vehicleId, register.file(), sheets);
  }

  /** All vehicles, in the order of their ids; each is made when it is taken. */
  @Override
  public Iterator<GatheredVehicle> iterator() {
    int[] inOrder = ids.inOrder();
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

package borecensus.night;

import borecensus.ledger.LedgerSheet;
import borecensus.packed.ByteReader;
import borecensus.packed.KnownTexts;
import borecensus.packed.RegisterBytes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The vehicles of one partition, made of its blocks one at a time, in the byte order of their ids.
 * The blocks themselves are held: some ten megabytes, whatever the fleet.
 */
final class GatheredVehicles implements Iterable<GatheredVehicle> {
  private static final VehicleRecord[] KINDS = VehicleRecord.values();

  private final List<byte[]> blocks = new ArrayList<>();
  private final KnownTexts known = new KnownTexts();

  /** Sparse: ids that differ in a few digits have hashes near each other. */
  private final Map<String, Places> vehicles = new HashMap<>(1 << 10, 0.25f);

  GatheredVehicles(Iterator<byte[]> blocks) {
    while (blocks.hasNext()) {
      byte[] block = blocks.next();
      find(block, this.blocks.size());
      this.blocks.add(block);
    }
  }

  private void find(byte[] block, int number) {
    ByteReader in = new ByteReader(block);
    while (in.hasMore()) {
      int length = (int) in.count();
      int end = in.position() + length;
      String vehicleId = in.text();
      vehicles.computeIfAbsent(vehicleId, Places::new).add(number, in.position());
      in.skip(end - in.position());
    }
  }

  /** The ids of all vehicles, in no order. */
  Set<String> unorderedIds() {
    return vehicles.keySet();
  }

  /** The ids of all vehicles, in their byte order. */
  List<String> ids() {
    return ByteOrderOfIds.sorted(vehicles.keySet());
  }

  /** Whether anything is known of a vehicle. */
  boolean has(String vehicleId) {
    return vehicles.containsKey(vehicleId);
  }

  /** What is known of a vehicle, be it nothing. */
  GatheredVehicle get(String vehicleId) {
    Places places = vehicles.get(vehicleId);
    return places == null ? new GatheredVehicle(vehicleId, null, List.of()) : at(places);
  }

  private GatheredVehicle at(Places places) {
    String vehicleId = places.vehicleId;
    RegisterBytes.Gatherer register = new RegisterBytes.Gatherer(vehicleId);
    List<LedgerSheet> sheets = new ArrayList<>(places.count);
    for (int i = 0; i < places.count; i++) {
      ByteReader in = new ByteReader(blocks.get(places.blocks[i]), places.offsets[i]);
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
    Iterator<String> ids = ids().iterator();
    return new Iterator<>() {
      @Override
      public boolean hasNext() {
        return ids.hasNext();
      }

      @Override
      public GatheredVehicle next() {
        return get(ids.next());
      }
    };
  }

  /** Where the records of one vehicle stand. */
  private static final class Places {
    private final String vehicleId;
    private int[] blocks = new int[6];
    private int[] offsets = new int[6];
    private int count;

    Places(String vehicleId) {
      this.vehicleId = vehicleId;
    }

    void add(int block, int offset) {
      if (count == blocks.length) {
        blocks = Arrays.copyOf(blocks, 2 * count);
        offsets = Arrays.copyOf(offsets, 2 * count);
      }
      blocks[count] = block;
      offsets[count] = offset;
      count++;
    }
  }
}

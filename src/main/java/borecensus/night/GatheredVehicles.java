package borecensus.night;

import borecensus.ledger.LedgerSheet;
import borecensus.packed.ByteReader;
import borecensus.packed.RegisterBytes;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.apache.spark.unsafe.types.UTF8String;

/**
 * The vehicles of one partition, made of its blocks one at a time, in the byte order of their ids.
 * The blocks themselves are held: some ten megabytes, whatever the fleet.
 */
final class GatheredVehicles implements Iterable<GatheredVehicle> {
  private static final VehicleRecord[] KINDS = VehicleRecord.values();

  private final List<byte[]> blocks = new ArrayList<>();
  private final Map<String, Places> vehicles = new HashMap<>();
  private final List<String> ids;

  GatheredVehicles(Iterator<byte[]> blocks) {
    while (blocks.hasNext()) {
      byte[] block = blocks.next();
      find(block, this.blocks.size());
      this.blocks.add(block);
    }
    ids =
        vehicles.keySet().stream()
            .map(UTF8String::fromString)
            .sorted()
            .map(UTF8String::toString)
            .toList();
  }

  private void find(byte[] block, int number) {
    ByteReader in = new ByteReader(block);
    while (in.hasMore()) {
      int length = (int) in.count();
      int end = in.position() + length;
      String vehicleId = in.text();
      vehicles.computeIfAbsent(vehicleId, id -> new Places()).add(number, in.position());
      in.skip(end - in.position());
    }
  }

  /** The ids of all vehicles, in their byte order. */
  List<String> ids() {
    return ids;
  }

  /** The vehicle with one of these ids. */
  GatheredVehicle get(String vehicleId) {
    Places places = vehicles.get(vehicleId);
    RegisterBytes.Gatherer register = new RegisterBytes.Gatherer(vehicleId);
    List<LedgerSheet> sheets = new ArrayList<>(places.count);
    for (int i = 0; i < places.count; i++) {
      ByteReader in = new ByteReader(blocks.get(places.blocks[i]), places.offsets[i]);
      switch (in.word(KINDS)) {
        case VEHICLE -> register.addVehicle(in);
        case REPAIR -> register.addRepair(in);
        case FINDING -> register.addFinding(in);
        case TEST -> sheets.add(SheetBytes.read(vehicleId, in));
      }
    }
    return new GatheredVehicle(vehicleId, register.file(), sheets);
  }

  /** All vehicles, in the order of their ids; each is made when it is taken. */
  @Override
  public Iterator<GatheredVehicle> iterator() {
    return ids.stream().map(this::get).iterator();
  }

  /** Where the records of one vehicle stand. */
  private static final class Places {
    private int[] blocks = new int[6];
    private int[] offsets = new int[6];
    private int count;

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

package borecensus.night;

import borecensus.packed.ByteWriter;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;

/** Writes records of vehicles to the blocks of their partitions. */
final class VehicleBlocks {
  private final BlockWriter blocks;
  private final Sections sections;
  private final ByteWriter record = new ByteWriter();

  VehicleBlocks(BlockWriter blocks, Sections sections) {
    this.blocks = blocks;
    this.sections = sections;
  }

  void add(VehicleRecord kind, String vehicleId, Consumer<ByteWriter> content) {
    add(kind, vehicleId.getBytes(StandardCharsets.UTF_8), content);
  }

  /**
   * Adds a record, as {@link GatheredVehicles} reads it.
   *
   * @return the partition of its vehicle
   */
  int add(VehicleRecord kind, byte[] vehicleId, Consumer<ByteWriter> content) {
    int partition = sections.ofVehicle(vehicleId);
    record.clear();
    record.utf8(vehicleId);
    record.word(kind);
    content.accept(record);
    blocks.to(partition).part(record);
    return partition;
  }
}

package borecensus.night;

import borecensus.packed.ByteWriter;
import borecensus.packed.VehicleRecord;
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

  /** Adds a record, as {@link GatheredVehicles} reads it. */
  void add(VehicleRecord kind, String vehicleId, Consumer<ByteWriter> content) {
    byte[] id = vehicleId.getBytes(StandardCharsets.UTF_8);
    record.clear();
    record.utf8(id);
    record.word(kind);
    content.accept(record);
    blocks.to(sections.ofVehicle(id)).part(record);
  }
}

package borecensus.night;

import borecensus.packed.ByteWriter;
import borecensus.packed.VehicleRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Iterator;
import java.util.NoSuchElementException;
import scala.Tuple2;

/** Blocks of tests, and of the hashes by which equal test ids find each other. */
final class TestBlocks implements Iterator<Tuple2<Integer, byte[]>>, AutoCloseable {
  private final Iterator<LedgerPart> parts;
  private final Sections sections;
  private final BlockWriter blocks;
  private final ByteWriter record = new ByteWriter();
  private LedgerTests tests;
  private long written;

  /** Writes blocks while they are taken. */
  TestBlocks(Iterator<LedgerPart> parts, Sections sections) {
    this.parts = parts;
    this.sections = sections;
    this.blocks = new BlockWriter(sections.numPartitions());
  }

  /** How many tests were written. */
  long written() {
    return written;
  }

  @Override
  public boolean hasNext() {
    while (blocks.full().isEmpty() && nextTest()) {
      add();
    }
    if (blocks.full().isEmpty()) {
      blocks.closeAll();
    }
    return !blocks.full().isEmpty();
  }

  private boolean nextTest() {
    try {
      while (tests == null || !tests.next()) {
        close();
        if (!parts.hasNext()) {
          return false;
        }
        tests = new LedgerTests(parts.next(), record);
      }
      return true;
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private void add() {
    record.clear();
    tests.writeVehicleId();
    record.word(VehicleRecord.TEST);
    int testIdAt = tests.writeSheet();
    byte[] vehicleId = record.utf8At(0);
    int partition = sections.ofVehicle(vehicleId);
    blocks.to(partition).part(record);
    long testId = TextHash.of(record.utf8At(testIdAt));
    ByteWriter holder = blocks.to(sections.ofTestId(testId));
    holder.bits(testId);
    holder.bits(TextHash.of(vehicleId));
    holder.count(partition);
    written++;
  }

  @Override
  public Tuple2<Integer, byte[]> next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return blocks.full().remove();
  }

  /** Lets go of the part that is being read. */
  @Override
  public void close() throws IOException {
    if (tests != null) {
      tests.close();
      tests = null;
    }
  }
}

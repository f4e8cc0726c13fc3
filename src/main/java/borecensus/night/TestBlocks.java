package borecensus.night;

import borecensus.packed.ByteWriter;
import java.util.Iterator;
import java.util.NoSuchElementException;
import java.util.stream.Stream;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.functions;
import scala.Tuple2;

/** Blocks of tests, and of the hashes by which equal test ids find each other. */
final class TestBlocks implements Iterator<Tuple2<Integer, byte[]>> {
  private static final int VEHICLE_ID = SheetBytes.FIELDS.size();
  private static final int TEST_ID = SheetBytes.FIELDS.indexOf(LedgerField.TEST_ID);

  private final Iterator<InternalRow> rows;
  private final Sections sections;
  private final BlockWriter blocks;
  private final VehicleBlocks vehicles;

  /**
   * Writes blocks while they are taken.
   *
   * @param rows with these columns
   */
  TestBlocks(Iterator<InternalRow> rows, Sections sections) {
    this.rows = rows;
    this.sections = sections;
    this.blocks = new BlockWriter(sections.numPartitions());
    this.vehicles = new VehicleBlocks(blocks, sections);
  }

  /** The ledger's columns that the blocks are written from: a sheet's, then its vehicle's id. */
  static Column[] columns() {
    return Stream.concat(SheetBytes.FIELDS.stream(), Stream.of(LedgerField.VEHICLE_ID))
        .map(field -> functions.col(field.columnName()))
        .toArray(Column[]::new);
  }

  @Override
  public boolean hasNext() {
    while (blocks.full().isEmpty() && rows.hasNext()) {
      add(rows.next());
      if (!rows.hasNext()) {
        blocks.closeAll();
      }
    }
    return !blocks.full().isEmpty();
  }

  private void add(InternalRow row) {
    byte[] vehicleId = row.getUTF8String(VEHICLE_ID).getBytes();
    int partition = vehicles.add(VehicleRecord.TEST, vehicleId, out -> SheetBytes.write(row, out));
    long testId = TextHash.of(row.getUTF8String(TEST_ID).getBytes());
    ByteWriter holder = blocks.to(sections.ofTestId(testId));
    holder.bits(testId);
    holder.bits(TextHash.of(vehicleId));
    holder.count(partition);
  }

  @Override
  public Tuple2<Integer, byte[]> next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return blocks.full().remove();
  }
}

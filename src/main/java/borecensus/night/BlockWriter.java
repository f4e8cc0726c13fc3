package borecensus.night;

import borecensus.packed.ByteWriter;
import java.util.ArrayDeque;
import java.util.Queue;
import scala.Tuple2;

/**
 * Gathers small records into blocks by the partition they are bound for: Spark then moves a few
 * large values in place of many small ones, which costs it a fraction of the time.
 */
final class BlockWriter {
  private static final int BLOCK_BYTES = 1 << 15;

  private final ByteWriter[] open;
  private final Queue<Tuple2<Integer, byte[]>> full = new ArrayDeque<>();

  BlockWriter(int partitions) {
    open = new ByteWriter[partitions];
  }

  /** The block under way to a partition, to write one whole record to. */
  ByteWriter to(int partition) {
    ByteWriter block = open[partition];
    if (block == null) {
      block = new ByteWriter();
      open[partition] = block;
    } else if (block.size() >= BLOCK_BYTES) {
      close(partition);
    }
    return block;
  }

  private void close(int partition) {
    full.add(new Tuple2<>(partition, open[partition].toBytes()));
    open[partition].clear();
  }

  /** Closes all blocks under way. */
  void closeAll() {
    for (int partition = 0; partition < open.length; partition++) {
      if (open[partition] != null && open[partition].size() > 0) {
        close(partition);
      }
    }
  }

  /** Blocks that are closed and not yet taken. */
  Queue<Tuple2<Integer, byte[]>> full() {
    return full;
  }
}

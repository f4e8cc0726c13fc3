package borecensus.night;

import borecensus.packed.ByteReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import org.apache.spark.api.java.function.FlatMapFunction;
import scala.Tuple2;

/**
 * Test ids that stand on sheets of more than one vehicle, by their hashes: each with the partition
 * of every vehicle that has it. A hash that two ids share is no harm: who reads the sheets sees
 * their ids.
 */
final class SharedTestIds implements FlatMapFunction<Iterator<byte[]>, Tuple2<Integer, Long>> {

  @Override
  public Iterator<Tuple2<Integer, Long>> call(Iterator<byte[]> blocks) {
    List<byte[]> all = new ArrayList<>();
    blocks.forEachRemaining(all::add);
    Set<Long> shared = shared(all);
    Set<Tuple2<Integer, Long>> places = new HashSet<>();
    if (!shared.isEmpty()) {
      each(
          all,
          (testId, vehicle, partition) -> {
            if (shared.contains(testId)) {
              places.add(new Tuple2<>(partition, testId));
            }
          });
    }
    return places.iterator();
  }

  private static Set<Long> shared(List<byte[]> blocks) {
    long bytes = blocks.stream().mapToLong(block -> block.length).sum();
    FirstHolders holders = new FirstHolders((int) (bytes / (2 * Long.BYTES)));
    Set<Long> shared = new HashSet<>();
    each(
        blocks,
        (testId, vehicle, partition) -> {
          if (holders.of(testId, vehicle) != vehicle) {
            shared.add(testId);
          }
        });
    return shared;
  }

  private interface Holder {
    void holds(long testId, long vehicle, int partition);
  }

  private static void each(List<byte[]> blocks, Holder holder) {
    for (byte[] block : blocks) {
      ByteReader in = new ByteReader(block);
      while (in.hasMore()) {
        holder.holds(in.bits(), in.bits(), (int) in.count());
      }
    }
  }

  /** The vehicle that each test id was met with first: a hash table of plain numbers. */
  private static final class FirstHolders {
    private static final long NOBODY = 0;

    private final long[] testIds;
    private final long[] vehicles;
    private final int mask;

    FirstHolders(int most) {
      int size = Math.max(16, Integer.highestOneBit(Math.max(1, most)) << 2);
      testIds = new long[size];
      vehicles = new long[size];
      mask = size - 1;
      Arrays.fill(vehicles, NOBODY);
    }

    long of(long testId, long vehicle) {
      int slot = (int) (testId ^ (testId >>> 32)) & mask;
      while (vehicles[slot] != NOBODY && testIds[slot] != testId) {
        slot = (slot + 1) & mask;
      }
      if (vehicles[slot] == NOBODY) {
        testIds[slot] = testId;
        vehicles[slot] = vehicle;
      }
      return vehicles[slot];
    }
  }
}

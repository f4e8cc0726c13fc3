package borecensus.benchmark;

import borecensus.benchmark.SumUp.Summary;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.apache.spark.sql.Row;
import scala.Tuple2;

/**
 * Many tests as arrays of numbers: one object travels where there would be thousands of rows.
 *
 * @param vehicleIds each once
 * @param vehicleOf for each test, its place in {@code vehicleIds}
 * @param levels for each test
 * @param spreadsPct for each test
 */
record TestBlock(String[] vehicleIds, int[] vehicleOf, double[] levels, double[] spreadsPct)
    implements Serializable {

  /** The tests of a partition that have a reading, a block for each bucket of vehicles. */
  static Iterator<Tuple2<Integer, TestBlock>> blocks(
      Iterator<Row> tests, SumUp sumUp, int buckets) {
    Map<Integer, Growing> growing = new HashMap<>();
    while (tests.hasNext()) {
      Summary test = sumUp.summed(tests.next());
      if (!Double.isNaN(test.level())) {
        growing.computeIfAbsent(bucket(test.vehicleId(), buckets), b -> new Growing()).add(test);
      }
    }
    List<Tuple2<Integer, TestBlock>> blocks = new ArrayList<>();
    growing.forEach((bucket, tested) -> blocks.add(new Tuple2<>(bucket, tested.close())));
    return blocks.iterator();
  }

  /** In which bucket a vehicle's tests meet its family. */
  static int bucket(String vehicleId, int buckets) {
    return Math.floorMod(vehicleId.hashCode(), buckets);
  }

  private static final class Growing {
    private final Map<String, Integer> placeOf = new HashMap<>();
    private final List<String> vehicleIds = new ArrayList<>();
    private final Numbers levels = new Numbers();
    private final Numbers spreadsPct = new Numbers();
    private int[] vehicleOf = new int[64];
    private int tests;

    void add(Summary test) {
      Integer place = placeOf.putIfAbsent(test.vehicleId(), vehicleIds.size());
      if (place == null) {
        place = vehicleIds.size();
        vehicleIds.add(test.vehicleId());
      }
      if (tests == vehicleOf.length) {
        vehicleOf = Arrays.copyOf(vehicleOf, 2 * tests);
      }
      vehicleOf[tests++] = place;
      levels.add(test.level());
      spreadsPct.add(test.spreadPct());
    }

    TestBlock close() {
      return new TestBlock(
          vehicleIds.toArray(new String[0]),
          Arrays.copyOf(vehicleOf, tests),
          levels.toArray(),
          spreadsPct.toArray());
    }
  }
}

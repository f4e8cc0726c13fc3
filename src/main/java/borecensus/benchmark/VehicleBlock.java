package borecensus.benchmark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.apache.spark.sql.Row;
import scala.Tuple2;

/**
 * The families of many vehicles.
 *
 * @param vehicleIds each once
 * @param familyIds of the vehicle at the same place
 */
record VehicleBlock(String[] vehicleIds, String[] familyIds) implements Serializable {

  /** The vehicles of a partition (vehicle_id, family_id), a block for each bucket. */
  static Iterator<Tuple2<Integer, VehicleBlock>> blocks(Iterator<Row> vehicles, int buckets) {
    Map<Integer, Growing> growing = new HashMap<>();
    while (vehicles.hasNext()) {
      Row vehicle = vehicles.next();
      String vehicleId = vehicle.getString(0);
      growing
          .computeIfAbsent(TestBlock.bucket(vehicleId, buckets), b -> new Growing())
          .add(vehicleId, vehicle.getString(1));
    }
    List<Tuple2<Integer, VehicleBlock>> blocks = new ArrayList<>();
    growing.forEach((bucket, known) -> blocks.add(new Tuple2<>(bucket, known.close())));
    return blocks.iterator();
  }

  private static final class Growing {
    private final List<String> vehicleIds = new ArrayList<>();
    private final List<String> familyIds = new ArrayList<>();
    private final Map<String, String> oneOfEach = new HashMap<>();

    /** Families are few: one text for each keeps what is sent and held small. */
    void add(String vehicleId, String familyId) {
      vehicleIds.add(vehicleId);
      familyIds.add(oneOfEach.computeIfAbsent(familyId, family -> family));
    }

    VehicleBlock close() {
      return new VehicleBlock(vehicleIds.toArray(new String[0]), familyIds.toArray(new String[0]));
    }
  }
}

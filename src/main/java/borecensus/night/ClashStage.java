package borecensus.night;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.TestIdentity;
import borecensus.ledger.VehicleSettler;
import borecensus.night.GatherStage.Gathered;
import borecensus.packed.RecordPlace;
import borecensus.registers.Registers;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.storage.StorageLevel;
import scala.Tuple2;

/**
 * One test_id on sheets of different vehicles. Settling looks at one vehicle at a time, so this
 * rare case is told beforehand; only the sheets concerned are ever moved.
 */
final class ClashStage {
  private ClashStage() {}

  /**
   * The records that do not stand because another vehicle's sheet holds their test_id, as rows of
   * histories, each in the partition of its vehicle. A sheet that the registers refuse anyway holds
   * no number and takes none.
   */
  static JavaRDD<Row> lost(Gathered gathered, Broadcast<Registers> registers, LocalDate asOf) {
    int partitions = gathered.sections().vehicles();
    JavaRDD<Tuple2<Integer, Long>> shared = gathered.testIds().mapPartitions(new SharedTestIds());
    if (shared.count() == 0) {
      return JavaSparkContext.fromSparkContext(shared.context()).parallelize(List.of(), partitions);
    }
    // The number of a partition is its own hash.
    HashPartitioner byVehicle = new HashPartitioner(partitions);
    JavaRDD<Long> sharedByVehicle = JavaPairRDD.fromJavaRDD(shared).partitionBy(byVehicle).values();
    return JavaPairRDD.fromJavaRDD(
            gathered.vehicles().zipPartitions(sharedByVehicle, new Claims(registers, asOf)))
        .groupByKey(partitions)
        .flatMapToPair(new Resolve(gathered.sections()))
        .partitionBy(byVehicle)
        .values()
        .persist(StorageLevel.MEMORY_AND_DISK());
  }

  /**
   * A sheet under a shared number.
   *
   * @param stands whether the registers let it stand
   */
  private record Claim(LedgerSheet sheet, boolean stands) implements Serializable {
    String vehicleId() {
      return sheet.row().vehicleId();
    }
  }

  private record Claims(Broadcast<Registers> registers, LocalDate asOf)
      implements FlatMapFunction2<Iterator<byte[]>, Iterator<Long>, Tuple2<String, Claim>> {
    @Override
    public Iterator<Tuple2<String, Claim>> call(Iterator<byte[]> blocks, Iterator<Long> shared) {
      if (!shared.hasNext()) {
        return Collections.emptyIterator();
      }
      Set<Long> testIds = new HashSet<>();
      shared.forEachRemaining(testIds::add);
      VehicleSettler settler = new VehicleSettler(registers.value(), asOf);
      List<Tuple2<String, Claim>> claims = new ArrayList<>();
      for (GatheredVehicle vehicle : new GatheredVehicles(blocks)) {
        for (LedgerSheet sheet : vehicle.sheets()) {
          String testId = sheet.row().testId();
          if (testIds.contains(TextHash.of(testId))) {
            claims.add(new Tuple2<>(testId, claim(sheet, vehicle, settler)));
          }
        }
      }
      return claims.iterator();
    }

    private static Claim claim(LedgerSheet sheet, GatheredVehicle vehicle, VehicleSettler settler) {
      boolean registered = vehicle.file() != null;
      return new Claim(sheet, registered && settler.stands(sheet, vehicle.file().vehicle()));
    }
  }

  private record Resolve(Sections sections)
      implements PairFlatMapFunction<Tuple2<String, Iterable<Claim>>, Integer, Row> {
    @Override
    public Iterator<Tuple2<Integer, Row>> call(Tuple2<String, Iterable<Claim>> testId) {
      Set<String> vehicles = new HashSet<>();
      List<LedgerSheet> standing = new ArrayList<>();
      for (Claim claim : testId._2()) {
        vehicles.add(claim.vehicleId());
        if (claim.stands()) {
          standing.add(claim.sheet());
        }
      }
      return vehicles.size() < 2 ? Collections.emptyIterator() : lost(standing);
    }

    private Iterator<Tuple2<Integer, Row>> lost(List<LedgerSheet> sheets) {
      Map<RecordPlace, String> vehicles = new HashMap<>();
      for (LedgerSheet sheet : sheets) {
        for (long rowNumber : sheet.row().rowNumbers()) {
          vehicles.put(new RecordPlace(sheet.fileOrder(), rowNumber), sheet.row().vehicleId());
        }
      }
      List<Tuple2<Integer, Row>> lost = new ArrayList<>();
      for (Row row :
          HistoryRows.toRows(TestIdentity.resolveAcrossVehicles(sheets), vehicles::get)) {
        String vehicleId = row.getString(HistoryField.VEHICLE_ID.ordinal());
        lost.add(new Tuple2<>(sections.ofVehicle(vehicleId), row));
      }
      return lost.iterator();
    }
  }
}

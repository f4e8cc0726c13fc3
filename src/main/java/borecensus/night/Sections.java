package borecensus.night;

import borecensus.published.VehicleBuckets;
import org.apache.spark.Partitioner;

/**
 * What the one shuffle of a night brings together: everything that is known of a vehicle, the marks
 * of equal test ids, and the problems met in the registers.
 *
 * @param vehicles partitions of the vehicles, first
 * @param testIds partitions of the test ids, next; the problems have the last one
 */
final class Sections extends Partitioner {
  private static final int TESTS_PER_VEHICLE_PARTITION = 100_000;
  private static final double MOST_GROWTH = 1.5;
  private static final int VEHICLE_PARTITIONS_PER_TEST_ID_PARTITION = 8;

  private final int vehicles;
  private final int testIds;

  /** Sections for so many partitions of vehicles. */
  Sections(int vehicles) {
    this.vehicles = vehicles;
    this.testIds = Math.max(1, vehicles / VEHICLE_PARTITIONS_PER_TEST_ID_PARTITION);
  }

  /** Sections for a ledger of so many rows, whatever machine it is settled on. */
  static Sections forRows(long rows) {
    return new Sections((int) Math.max(2, rows / TESTS_PER_VEHICLE_PARTITION));
  }

  /** Whether a ledger that would have so many sections by itself may be kept in these. */
  boolean suit(Sections wanted) {
    return wanted.vehicles <= MOST_GROWTH * vehicles;
  }

  int vehicles() {
    return vehicles;
  }

  int ofVehicle(String vehicleId) {
    return VehicleBuckets.bucketOf(vehicleId, vehicles);
  }

  /** The same for an id in UTF-8. */
  int ofVehicle(byte[] vehicleId) {
    return VehicleBuckets.bucketOf(vehicleId, vehicles);
  }

  /** The partition of a test id's hash. */
  int ofTestId(long hash) {
    return vehicles + (int) Math.floorMod(hash, (long) testIds);
  }

  int problems() {
    return vehicles + testIds;
  }

  boolean isVehicles(int partition) {
    return partition < vehicles;
  }

  boolean isTestIds(int partition) {
    return partition >= vehicles && partition < problems();
  }

  boolean isProblems(int partition) {
    return partition == problems();
  }

  @Override
  public int numPartitions() {
    return problems() + 1;
  }

  @Override
  public int getPartition(Object key) {
    return (Integer) key;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Sections sections && sections.vehicles == vehicles;
  }

  @Override
  public int hashCode() {
    return vehicles;
  }
}

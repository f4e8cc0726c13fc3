package borecensus.night;

import borecensus.publish.SnapshotStore;
import borecensus.registers.Registers;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.SparkSession;

/**
 * What every step of a night works with.
 *
 * @param files the fleet folder
 * @param registers the small ones
 * @param digests of all registers, as the night found them
 */
record NightInputs(
    SparkSession spark,
    NightSettings settings,
    FleetFiles files,
    Registers registers,
    RegisterDigests digests,
    SnapshotStore store) {

  JavaSparkContext context() {
    return JavaSparkContext.fromSparkContext(spark.sparkContext());
  }

  <T> Broadcast<T> broadcast(T value, Class<T> type) {
    return spark.sparkContext().broadcast(value, scala.reflect.ClassTag$.MODULE$.apply(type));
  }
}

package borecensus.night;

import org.apache.spark.sql.SparkSession;

/**
 * Where a night ran.
 *
 * @param master Spark's master
 * @param parallelism tasks at one time, as Spark knows it at the start: on a cluster, of the
 *     workers that have come by then
 * @param processors of the driver's machine
 * @param heapMib largest heap of the driver
 */
record RunMachine(
    String master, String spark, int parallelism, int processors, long heapMib, String java) {

  static RunMachine of(SparkSession spark) {
    return new RunMachine(
        spark.sparkContext().master(),
        spark.version(),
        spark.sparkContext().defaultParallelism(),
        Runtime.getRuntime().availableProcessors(),
        Runtime.getRuntime().maxMemory() >> 20,
        Runtime.version().toString());
  }
}

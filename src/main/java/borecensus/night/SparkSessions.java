package borecensus.night;

import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.SparkConf;
import org.apache.spark.sql.SparkSession;
import scala.Tuple2;

/** Sessions set up for the night: quiet, closed to the network, in UTC. */
final class SparkSessions {
  private static final String HADOOP = "spark.hadoop.";

  private SparkSessions() {}

  /**
   * The session of the surrounding {@code spark-submit}, or a local one.
   *
   * @param chosen settings from the command line; they win over ours
   */
  static SparkSession open(Map<String, String> chosen) {
    SparkConf submitted = new SparkConf();
    String master =
        submitted.get("spark.master", System.getenv().getOrDefault("SPARK_MASTER_URL", "local[*]"));
    SparkSession.Builder builder = SparkSession.builder().appName("borecensus").master(master);
    Map<String, String> settings = new TreeMap<>(ours());
    if (inOneProcess(master)) {
      settings.putAll(closedToTheNetwork());
    } else {
      settings.put("spark.jars", ShippedJars.commaSeparated());
    }
    settings.forEach(
        (key, value) -> {
          if (!submitted.contains(key)) {
            builder.config(key, value);
          }
        });
    chosen.forEach(builder::config);
    return builder.getOrCreate();
  }

  /** What Spark hands to Hadoop: the same settings are needed before there is a session. */
  static Map<String, String> hadoopSettings(Map<String, String> chosen) {
    Map<String, String> all = new TreeMap<>();
    for (Tuple2<String, String> setting : new SparkConf().getAll()) {
      all.put(setting._1(), setting._2());
    }
    all.putAll(chosen);
    Map<String, String> hadoop = new TreeMap<>();
    all.forEach(
        (key, value) -> {
          if (key.startsWith(HADOOP)) {
            hadoop.put(key.substring(HADOOP.length()), value);
          }
        });
    return hadoop;
  }

  private static boolean inOneProcess(String master) {
    return master.equals("local") || master.startsWith("local[");
  }

  private static Map<String, String> ours() {
    return Map.ofEntries(
        Map.entry("spark.ui.enabled", "false"),
        Map.entry("spark.ui.showConsoleProgress", "false"),
        Map.entry("spark.sql.session.timeZone", "UTC"),
        Map.entry("spark.sql.datetime.java8API.enabled", "true"),
        Map.entry("spark.sql.debug.maxToStringFields", "1000"),
        Map.entry("spark.sql.catalogImplementation", "in-memory"),
        Map.entry("spark.sql.parquet.compression.codec", "zstd"),
        Map.entry("spark.sql.codegen.cache.maxEntries", "1000"),
        // Java never compiles a method of more bytes than this: rows of many fields, written out in
        // one method, would be interpreted for the whole night.
        Map.entry("spark.sql.codegen.hugeMethodLimit", "8000"),
        // What is kept is mostly packed bytes: trying to compress them again costs a twentieth of
        // the time of settling and screening, and saves a twelfth of the memory.
        Map.entry("spark.sql.inMemoryColumnarStorage.compressed", "false"),
        // Rows of one night are few in a small fleet: a task costs more than what it moves.
        Map.entry("spark.sql.shuffle.partitions", "2"),
        Map.entry("spark.hadoop.mapreduce.fileoutputcommitter.marksuccessfuljobs", "false"),
        // Parquet checks its own pages; the checksum files beside it would only be clutter.
        Map.entry("spark.hadoop.fs.file.impl", "org.apache.hadoop.fs.RawLocalFileSystem"));
  }

  private static Map<String, String> closedToTheNetwork() {
    return Map.of(
        "spark.driver.host", "127.0.0.1",
        "spark.driver.bindAddress", "127.0.0.1",
        // One process needs no sign of life from itself, and the one that Spark sends may trip over
        // an accumulator that is just being made.
        "spark.executor.heartbeatInterval", "1h",
        "spark.network.timeout", "2h");
  }
}

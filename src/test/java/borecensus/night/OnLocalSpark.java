package borecensus.night;

import java.util.Map;
import org.apache.spark.sql.SparkSession;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;

/** Tests of one class that share a session of two threads. */
abstract class OnLocalSpark {
  static SparkSession spark;

  @BeforeAll
  static void startSpark() {
    spark = SparkSessions.open(Map.of("spark.master", "local[2]"));
  }

  @AfterAll
  static void stopSpark() {
    spark.stop();
  }
}

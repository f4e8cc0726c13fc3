package borecensus.benchmark;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.SparkSession;

/**
 * The relational part of a night, twice over: by Spark and by a column store, from the same files
 * with as many threads. Each computes it once cold and, some passes later, three times warm, by
 * turns, so that whatever else the machine does falls on both; the middle figure counts.
 */
final class MeasuredRelational {
  static final String SPARK = "relational_spark";
  static final String SQL = "relational_sql";

  /** Passes that only warm both up: Java compiles in the background over the first few. */
  private static final int UNTIMED_PASSES = 4;

  private static final int WARM_PASSES = 3;

  private MeasuredRelational() {}

  static List<Figure> run(RelationalInput input, int threads) throws SQLException {
    SparkSession spark = session(threads);
    try (Connection connection = RelationalSql.open(threads)) {
      Computed bySql = () -> RelationalSql.answers(connection, input);
      Computed bySpark = () -> RelationalSpark.answers(spark, input);
      List<Figure> figures = new ArrayList<>(timed(SQL, "cold", bySql));
      figures.addAll(timed(SPARK, "cold", bySpark));
      for (int pass = 0; pass < UNTIMED_PASSES; pass++) {
        bySql.answers();
        bySpark.answers();
      }
      List<List<Figure>> warm = new ArrayList<>();
      for (int pass = 0; pass < WARM_PASSES; pass++) {
        warm.add(timed(SQL, "warm", bySql));
        warm.add(timed(SPARK, "warm", bySpark));
      }
      figures.addAll(Medians.of(warm));
      figures.addAll(compared(bySpark.answers(), bySql.answers()));
      return figures;
    } finally {
      spark.stop();
    }
  }

  /** One way of computing the answers. */
  private interface Computed {
    RelationalAnswers answers() throws SQLException;
  }

  private static List<Figure> timed(String run, String step, Computed computed)
      throws SQLException {
    double cpuBefore = ProcessFigures.cpuSeconds();
    long start = System.nanoTime();
    computed.answers();
    double wallS = (System.nanoTime() - start) / 1e9;
    return List.of(
        new Figure(run, step, "wall_s", wallS),
        new Figure(run, step, "cpu_s", ProcessFigures.cpuSeconds() - cpuBefore));
  }

  private static List<Figure> compared(RelationalAnswers bySpark, RelationalAnswers bySql) {
    return List.of(
        new Figure(SPARK, Figure.WHOLE, "differences", bySpark.differences(bySql).size()),
        new Figure(SPARK, Figure.WHOLE, "families", bySpark.families().size()),
        new Figure(SPARK, Figure.WHOLE, "ranked", bySpark.ranked().size()));
  }

  private static SparkSession session(int threads) {
    return SparkSession.builder()
        .appName("benchmark")
        .master("local[" + threads + "]")
        .config("spark.ui.enabled", "false")
        .config("spark.ui.showConsoleProgress", "false")
        .config("spark.driver.host", "127.0.0.1")
        .config("spark.driver.bindAddress", "127.0.0.1")
        .config("spark.sql.session.timeZone", "UTC")
        .config("spark.sql.catalogImplementation", "in-memory")
        .config("spark.sql.shuffle.partitions", String.valueOf(4 * threads))
        .getOrCreate();
  }
}

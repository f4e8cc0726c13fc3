package borecensus.benchmark;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.sql.SparkSession;

/**
 * The relational part of a night, twice over: by Spark and by a column store, from the same files
 * with as many threads. Each computes it twice, first cold and then warm.
 */
final class MeasuredRelational {
  static final String SPARK = "relational_spark";
  static final String SQL = "relational_sql";

  private MeasuredRelational() {}

  static List<Figure> run(RelationalInput input, int threads) throws SQLException {
    List<Figure> figures = new ArrayList<>();
    RelationalAnswers bySql = sql(input, threads, figures);
    RelationalAnswers bySpark = spark(input, threads, figures);
    figures.add(new Figure(SPARK, Figure.WHOLE, "differences", bySpark.differences(bySql).size()));
    figures.add(new Figure(SPARK, Figure.WHOLE, "families", bySpark.families().size()));
    figures.add(new Figure(SPARK, Figure.WHOLE, "ranked", bySpark.ranked().size()));
    return figures;
  }

  private static RelationalAnswers sql(RelationalInput input, int threads, List<Figure> figures)
      throws SQLException {
    try (Connection connection = RelationalSql.open(threads)) {
      long start = System.nanoTime();
      RelationalSql.answers(connection, input);
      figures.add(wall(SQL, "cold", start));
      start = System.nanoTime();
      RelationalAnswers answers = RelationalSql.answers(connection, input);
      figures.add(wall(SQL, "warm", start));
      return answers;
    }
  }

  private static RelationalAnswers spark(RelationalInput input, int threads, List<Figure> figures) {
    SparkSession spark = session(threads);
    try {
      long start = System.nanoTime();
      RelationalSpark.answers(spark, input);
      figures.add(wall(SPARK, "cold", start));
      start = System.nanoTime();
      RelationalAnswers answers = RelationalSpark.answers(spark, input);
      figures.add(wall(SPARK, "warm", start));
      return answers;
    } finally {
      spark.stop();
    }
  }

  private static Figure wall(String run, String step, long start) {
    return new Figure(run, step, "wall_s", (System.nanoTime() - start) / 1e9);
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

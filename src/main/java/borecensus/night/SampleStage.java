package borecensus.night;

import static org.apache.spark.sql.functions.broadcast;
import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.xxhash64;

import borecensus.domain.EngineHistory;
import borecensus.norms.LearningPeriod;
import borecensus.packed.HistoryBytes;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/**
 * The histories from which norms are learned: all of a small family, a fixed share of a large one.
 * Which engines are in the share depends on their names alone, so it is the same on every machine
 * and in every partitioning. What is gathered is bounded by the number of families, never by the
 * fleet.
 */
final class SampleStage {
  private static final int MOST_PER_FAMILY = 1_500;
  private static final int MOST_IN_ALL = 40_000;

  /**
   * Where fewer engines were tested before, the newest tests are worth learning from (a choice).
   */
  private static final double LEAST_KNOWN = 0.9;

  private static final StructType COUNTS =
      new StructType().add("counted_family", DataTypes.StringType).add("count", DataTypes.LongType);

  private SampleStage() {}

  /**
   * Gathers the sample.
   *
   * @param families how many are registered
   * @param counted histories by family_id
   * @param period whose tests teach
   */
  static List<EngineHistory> sample(
      Dataset<Row> histories,
      int families,
      Map<String, HistoryCounts> counted,
      LearningPeriod period) {
    int perFamily = Math.min(MOST_PER_FAMILY, Math.max(50, MOST_IN_ALL / Math.max(1, families)));
    Dataset<Row> tested = teaching(histories, period);
    Map<String, Long> testedByFamily = new TreeMap<>();
    counted.forEach((family, n) -> testedByFamily.put(family, teaching(n, period)));
    Dataset<Row> sampled =
        few(tested, testedByFamily, xxhash64(col("engine_id"), col("segment")), perFamily);
    List<byte[]> gathered = sampled.select("history").as(Encoders.BINARY()).collectAsList();
    return gathered.parallelStream().map(HistoryBytes::read).map(period::of).toList();
  }

  /** Histories of which tests teach. */
  private static Dataset<Row> teaching(Dataset<Row> histories, LearningPeriod period) {
    return histories.where(
        col(period.equals(LearningPeriod.ALWAYS) ? "test_count" : "closed_tests").gt(0));
  }

  /** How many histories teach. */
  static long teaching(HistoryCounts counts, LearningPeriod period) {
    return period.equals(LearningPeriod.ALWAYS) ? counts.tested() : counts.closedTested();
  }

  /**
   * The time whose tests teach: all of it, but for a large fleet of which most engines were tested
   * before the month's period has ended.
   *
   * @param largeFrom tested engines from which a fleet is large
   */
  static LearningPeriod period(HistoryCounts counts, LocalDate asOf, long largeFrom) {
    boolean large = counts.tested() >= largeFrom;
    boolean known = counts.closedTested() >= LEAST_KNOWN * counts.tested();
    return large && known ? LearningPeriod.ofMonth(asOf) : LearningPeriod.ALWAYS;
  }

  /**
   * Rows of which about so many of each family are taken, all of a smaller one.
   *
   * @param rows with a family_id
   * @param byFamily how many there are
   * @param hash by which they are chosen
   */
  static Dataset<Row> few(
      Dataset<Row> rows, Map<String, Long> byFamily, Column hash, int perFamily) {
    Dataset<Row> counts = counts(rows.sparkSession(), byFamily);
    // A hash spread evenly over all 64-bit numbers; the share below this bound is taken.
    return rows.join(
            broadcast(counts), rows.col("family_id").equalTo(counts.col("counted_family")), "left")
        .where(
            hash.cast("double")
                .divide(lit(0x1p64))
                .plus(lit(0.5))
                .lt(lit((double) perFamily).divide(coalesce(col("count"), lit(1)))));
  }

  private static Dataset<Row> counts(SparkSession spark, Map<String, Long> testedByFamily) {
    List<Row> rows = new ArrayList<>();
    testedByFamily.forEach((id, tested) -> rows.add(RowFactory.create(id, tested)));
    return spark.createDataFrame(rows, COUNTS);
  }
}

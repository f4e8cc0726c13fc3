package borecensus.night;

import static org.apache.spark.sql.functions.broadcast;
import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.xxhash64;

import borecensus.domain.EngineHistory;
import borecensus.packed.HistoryBytes;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
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

  private static final StructType COUNTS =
      new StructType().add("counted_family", DataTypes.StringType).add("count", DataTypes.LongType);

  private SampleStage() {}

  /**
   * Gathers the sample.
   *
   * @param families how many are registered
   * @param testedByFamily histories with tests, by family_id
   */
  static List<EngineHistory> sample(
      Dataset<Row> histories, int families, Map<String, Long> testedByFamily) {
    int perFamily = Math.min(MOST_PER_FAMILY, Math.max(50, MOST_IN_ALL / Math.max(1, families)));
    Dataset<Row> tested = histories.where(col("test_count").gt(0));
    Dataset<Row> counts = counts(histories.sparkSession(), testedByFamily);
    // A hash spread evenly over all 64-bit numbers; the share below this bound is taken.
    Dataset<Row> sampled =
        tested
            .join(
                broadcast(counts),
                tested.col("family_id").equalTo(counts.col("counted_family")),
                "left")
            .where(
                xxhash64(col("engine_id"), col("segment"))
                    .cast("double")
                    .divide(lit(0x1p64))
                    .plus(lit(0.5))
                    .lt(lit((double) perFamily).divide(coalesce(col("count"), lit(1)))));
    List<byte[]> gathered = sampled.select("history").as(Encoders.BINARY()).collectAsList();
    return gathered.parallelStream().map(HistoryBytes::read).toList();
  }

  private static Dataset<Row> counts(SparkSession spark, Map<String, Long> testedByFamily) {
    List<Row> rows = new ArrayList<>();
    testedByFamily.forEach((id, tested) -> rows.add(RowFactory.create(id, tested)));
    return spark.createDataFrame(rows, COUNTS);
  }
}

package borecensus.benchmark;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.count;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.sum;

import borecensus.benchmark.RelationalAnswers.FamilyCentiles;
import borecensus.benchmark.RelationalAnswers.RankedEngine;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.storage.StorageLevel;

/** The relational part by Spark, with our own physics. */
final class RelationalSpark {
  private static final StructType LEDGER =
      new StructType()
          .add("kind", DataTypes.StringType)
          .add("sheet_kind", DataTypes.StringType)
          .add("vehicle_id", DataTypes.StringType)
          .add("site_id", DataTypes.StringType)
          .add("unit", DataTypes.StringType)
          .add("station_pressure_hpa", DataTypes.DoubleType)
          .add("qnh_hpa", DataTypes.DoubleType)
          .add("readings", DataTypes.createArrayType(DataTypes.DoubleType, false));

  private static final StructType VEHICLES =
      new StructType()
          .add("vehicle_id", DataTypes.StringType)
          .add("family_id", DataTypes.StringType)
          .add("in_service_on", DataTypes.StringType)
          .add("home_site_id", DataTypes.StringType);

  private static final StructType SITES =
      new StructType()
          .add("site_id", DataTypes.StringType)
          .add("elevation_m", DataTypes.DoubleType);

  private RelationalSpark() {}

  static RelationalAnswers answers(SparkSession spark, RelationalInput input) {
    Dataset<Row> summaries = summaries(spark, input).persist(StorageLevel.MEMORY_AND_DISK());
    try {
      List<FamilyCentiles> families = families(summaries);
      return new RelationalAnswers(families, ranked(spark, summaries, families));
    } finally {
      summaries.unpersist();
    }
  }

  /** vehicle_id, family_id, level and spread_pct of every test, together by vehicle. */
  private static Dataset<Row> summaries(SparkSession spark, RelationalInput input) {
    String[] ledger =
        input.ledgerFiles().stream().map(p -> p.toUri().toString()).toArray(String[]::new);
    TreeMap<String, Double> elevationsM = new TreeMap<>();
    csv(spark, input, "sites.csv", SITES)
        .collectAsList()
        .forEach(site -> elevationsM.put(site.getString(0), site.getDouble(1)));
    Dataset<Row> tests =
        spark
            .read()
            .schema(LEDGER)
            .parquet(ledger)
            .where(col("kind").equalTo("test").and(col("sheet_kind").equalTo("dry")))
            .drop("kind", "sheet_kind")
            .mapPartitions(new SumUp(elevationsM), Encoders.row(SumUp.SCHEMA));
    Dataset<Row> vehicles =
        csv(spark, input, "vehicles.csv", VEHICLES).select("vehicle_id", "family_id");
    return tests.join(vehicles.hint("shuffle_hash"), "vehicle_id");
  }

  private static Dataset<Row> csv(
      SparkSession spark, RelationalInput input, String name, StructType schema) {
    return spark
        .read()
        .schema(schema)
        .option("header", "true")
        .csv(input.fleet().resolve(name).toUri().toString());
  }

  private static List<FamilyCentiles> families(Dataset<Row> summaries) {
    MapPartitionsFunction<Row, Row> block = new FamilyBlocks.Gather();
    List<FamilyCentiles> families = new ArrayList<>();
    FamilyBlocks.centiles(
            summaries
                .select("family_id", "level", "spread_pct")
                .mapPartitions(block, Encoders.row(FamilyBlocks.SCHEMA)))
        .collectAsList()
        .forEach(row -> families.add(FamilyBlocks.toCentiles(row)));
    families.sort(Comparator.comparing(FamilyCentiles::familyId));
    return families;
  }

  private static List<RankedEngine> ranked(
      SparkSession spark, Dataset<Row> summaries, List<FamilyCentiles> families) {
    List<Row> middles = new ArrayList<>();
    families.forEach(f -> middles.add(RowFactory.create(f.familyId(), FamilyBlocks.middle(f))));
    Dataset<Row> middleByFamily =
        spark.createDataFrame(
            middles,
            new StructType()
                .add("family_id", DataTypes.StringType)
                .add("middle", DataTypes.DoubleType));
    List<RankedEngine> ranked = new ArrayList<>();
    summaries
        .groupBy("vehicle_id", "family_id")
        .agg(count(lit(1)).as("tests"), sum("level").as("level"))
        .join(org.apache.spark.sql.functions.broadcast(middleByFamily), "family_id")
        .select(
            col("vehicle_id"),
            col("tests"),
            col("level").divide(col("tests")).minus(col("middle")).as("deviation"))
        .orderBy("deviation", "vehicle_id")
        .limit(RelationalAnswers.MOST_RANKED)
        .collectAsList()
        .forEach(
            row ->
                ranked.add(new RankedEngine(row.getString(0), row.getLong(1), row.getDouble(2))));
    return ranked;
  }
}

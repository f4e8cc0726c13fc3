package borecensus.benchmark;

import static org.apache.spark.sql.functions.col;

import borecensus.benchmark.RelationalAnswers.FamilyCentiles;
import borecensus.benchmark.RelationalAnswers.RankedEngine;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaPairRDD;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.storage.StorageLevel;

/** The relational part by Spark, with our own physics. */
final class RelationalSpark {
  private static final int BUCKETS_PER_THREAD = 2;

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
    JavaRDD<EngineSums> sums = engineSums(spark, input).persist(StorageLevel.MEMORY_AND_DISK());
    try {
      List<FamilyCentiles> families = families(sums);
      return new RelationalAnswers(families, ranked(sums, families));
    } finally {
      sums.unpersist(false);
    }
  }

  /** Tests and vehicles meet by vehicle: the one shuffle of everything, in blocks of numbers. */
  private static JavaRDD<EngineSums> engineSums(SparkSession spark, RelationalInput input) {
    int buckets = BUCKETS_PER_THREAD * spark.sparkContext().defaultParallelism();
    SumUp sumUp = new SumUp(elevationsM(spark, input));
    JavaPairRDD<Integer, TestBlock> tests =
        tests(spark, input)
            .toJavaRDD()
            .mapPartitionsToPair(rows -> TestBlock.blocks(rows, sumUp, buckets));
    JavaPairRDD<Integer, VehicleBlock> vehicles =
        csv(spark, input, "vehicles.csv", VEHICLES)
            .select("vehicle_id", "family_id")
            .toJavaRDD()
            .mapPartitionsToPair(rows -> VehicleBlock.blocks(rows, buckets));
    return tests
        .cogroup(vehicles, buckets)
        .values()
        .map(bucket -> EngineSums.of(bucket._1(), bucket._2()));
  }

  private static Dataset<Row> tests(SparkSession spark, RelationalInput input) {
    String[] ledger =
        input.ledgerFiles().stream().map(p -> p.toUri().toString()).toArray(String[]::new);
    return spark
        .read()
        .schema(LEDGER)
        .parquet(ledger)
        .where(col("kind").equalTo("test").and(col("sheet_kind").equalTo("dry")))
        .drop("kind", "sheet_kind");
  }

  private static Map<String, Double> elevationsM(SparkSession spark, RelationalInput input) {
    Map<String, Double> elevationsM = new TreeMap<>();
    csv(spark, input, "sites.csv", SITES)
        .collectAsList()
        .forEach(site -> elevationsM.put(site.getString(0), site.getDouble(1)));
    return elevationsM;
  }

  private static Dataset<Row> csv(
      SparkSession spark, RelationalInput input, String name, StructType schema) {
    return spark
        .read()
        .schema(schema)
        .option("header", "true")
        .csv(input.fleet().resolve(name).toUri().toString());
  }

  private static List<FamilyCentiles> families(JavaRDD<EngineSums> sums) {
    return sums
        .flatMapToPair(EngineSums::familyBlocks)
        .groupByKey()
        .map(family -> centiles(family._1(), family._2()))
        .collect()
        .stream()
        .sorted(Comparator.comparing(FamilyCentiles::familyId))
        .toList();
  }

  /** The values of one family, gathered and sorted: exact centiles. */
  private static FamilyCentiles centiles(String familyId, Iterable<double[][]> blocks) {
    List<double[]> levels = new ArrayList<>();
    List<double[]> spreadsPct = new ArrayList<>();
    for (double[][] block : blocks) {
      levels.add(block[0]);
      spreadsPct.add(block[1]);
    }
    double[] level = Numbers.joined(levels);
    return new FamilyCentiles(
        familyId,
        level.length,
        Numbers.centiles(level),
        Numbers.centiles(Numbers.joined(spreadsPct)));
  }

  /** Each bucket gives its own first engines, so that only those are ranked together. */
  private static List<RankedEngine> ranked(
      JavaRDD<EngineSums> sums, List<FamilyCentiles> families) {
    int middle = Arrays.binarySearch(RelationalAnswers.CENTILES, 0.5);
    HashMap<String, Double> middles = new HashMap<>();
    families.forEach(family -> middles.put(family.familyId(), family.level()[middle]));
    return EngineSums.first(sums.flatMap(bucket -> bucket.ranked(middles).iterator()).collect());
  }
}

package borecensus.night;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.lit;

import borecensus.night.hadoop.Folders;
import borecensus.report.ChangesSince;
import borecensus.report.ChangesSince.Cleared;
import borecensus.report.ChangesSince.Counted;
import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;
import borecensus.report.MarkChange.Figures;
import borecensus.report.ReportLimits;
import borecensus.tables.Table;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.api.java.UDF6;
import org.apache.spark.sql.expressions.UserDefinedFunction;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;

/** What became of the marks since the night before: only marked engines are ever compared. */
final class ChangeStage {
  private static final UserDefinedFunction CHANGE =
      functions.udf(
          (UDF6<Double, Double, Double, Double, Double, Double, String>) ChangeStage::change,
          DataTypes.StringType);

  private ChangeStage() {}

  /**
   * The marked engines of the night before.
   *
   * @return empty on the first night
   */
  static Optional<Dataset<Row>> before(SparkSession spark, Optional<PreviousNight> previous) {
    return previous.map(
        night ->
            spark
                .read()
                .schema(TableSchemas.of(Table.ENGINE_STATUS))
                .parquet(Folders.source(night.snapshot().resolve(Table.ENGINE_STATUS.tableName())))
                .where(col("marked"))
                .select(
                    col("vehicle_id"),
                    col("engine_id"),
                    col("last_tested_on").as("before_tested_on"),
                    col("fault_probability").as("before_probability"),
                    col("level_pct").as("before_level"),
                    col("spread_pct").as("before_spread")));
  }

  /** The ranked engines, each with its change as a {@link MarkChange}'s name. */
  static Dataset<Row> changed(Dataset<Row> ranked, Optional<Dataset<Row>> before) {
    if (before.isEmpty()) {
      return ranked.withColumn("change", lit(MarkChange.FIRST_NIGHT.name()));
    }
    return ranked
        .join(before.get(), engine(), "left")
        .withColumn(
            "change",
            CHANGE.apply(
                col("before_probability"),
                col("before_level"),
                col("before_spread"),
                col("fault_probability"),
                col("level_pct"),
                col("spread_pct")));
  }

  private static String[] engine() {
    return new String[] {"vehicle_id", "engine_id"};
  }

  private static String change(
      Double probabilityBefore,
      Double levelBefore,
      Double spreadBefore,
      Double probability,
      Double level,
      Double spread) {
    return probabilityBefore == null
        ? MarkChange.NEW.name()
        : MarkChange.between(
                new Figures(probabilityBefore, orNaN(levelBefore), orNaN(spreadBefore)),
                new Figures(orNaN(probability), orNaN(level), orNaN(spread)))
            .name();
  }

  private static double orNaN(Double value) {
    return value == null ? Double.NaN : value;
  }

  /** The changes in numbers and by their first engines. */
  static ChangesSince since(
      PreviousNight previous, Dataset<Row> changed, Dataset<Row> before, Dataset<Row> statuses) {
    Map<MarkChange, Long> counts = new EnumMap<>(MarkChange.class);
    for (Row row : changed.groupBy("change").count().collectAsList()) {
      counts.put(MarkChange.valueOf(row.getString(0)), row.getLong(1));
    }
    return new ChangesSince(
        previous.asOf(),
        first(changed, MarkChange.NEW, counts),
        first(changed, MarkChange.WORSE, counts),
        counts.getOrDefault(MarkChange.UNCHANGED, 0L),
        cleared(changed, before, statuses));
  }

  private static Counted<ListedEngine> first(
      Dataset<Row> changed, MarkChange change, Map<MarkChange, Long> counts) {
    List<ListedEngine> first = new ArrayList<>();
    for (Row row :
        changed
            .where(col("change").equalTo(change.name()))
            .orderBy("rank")
            .limit(ReportLimits.CHANGES)
            .collectAsList()) {
      first.add(WorkListStage.toListed(row));
    }
    return new Counted<>(first, counts.getOrDefault(change, 0L));
  }

  private static Counted<Cleared> cleared(
      Dataset<Row> changed, Dataset<Row> before, Dataset<Row> statuses) {
    Dataset<Row> gone =
        before.join(changed.select("vehicle_id", "engine_id"), engine(), "left_anti");
    long inAll = gone.count();
    List<Cleared> first = new ArrayList<>();
    for (Row row :
        gone.orderBy(col("before_probability").desc(), col("vehicle_id"), col("engine_id"))
            .limit(ReportLimits.CHANGES)
            .join(
                statuses.select(
                    col("vehicle_id"),
                    col("engine_id"),
                    col("last_tested_on"),
                    col("fault_probability"),
                    lit(true).as("in_service")),
                engine(),
                "left")
            .orderBy(col("before_probability").desc(), col("vehicle_id"), col("engine_id"))
            .collectAsList()) {
      boolean inService = row.getAs("in_service") != null;
      LocalDate tested = row.getAs("last_tested_on");
      Double probability = row.getAs("fault_probability");
      first.add(
          new Cleared(
              row.getAs("vehicle_id"),
              row.getAs("before_tested_on"),
              tested,
              inService,
              orNaN(probability)));
    }
    return new Counted<>(first, inAll);
  }
}

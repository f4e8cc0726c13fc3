package borecensus.night;

import static org.apache.spark.sql.functions.array;
import static org.apache.spark.sql.functions.array_contains;
import static org.apache.spark.sql.functions.array_union;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.not;
import static org.apache.spark.sql.functions.when;

import borecensus.domain.Cause;
import borecensus.domain.Reason;
import borecensus.norms.UsageAxis;
import borecensus.report.LastFigures;
import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;
import borecensus.screening.Judgement;
import borecensus.statistics.FalseShareTable;
import borecensus.tables.Table;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.Outlook;
import borecensus.worklist.WorkListEntry;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.api.java.UDF1;
import org.apache.spark.sql.expressions.UserDefinedFunction;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Marks and ranks: only what is marked is ever sorted. */
final class WorkListStage {
  private static final Object[] JUDGED = {
    Judgement.JUDGED.code(), Judgement.JUDGED_SMALL_FAMILY.code()
  };

  private WorkListStage() {}

  /** Screened engines with their q-values and marks. */
  static Dataset<Row> marked(
      Dataset<Row> screened, Broadcast<FalseShareTable> falseShares, MarkRule rule) {
    UserDefinedFunction qValue =
        functions.udf(
            (UDF1<Double, Double>) probability -> falseShares.value().qValue(probability),
            DataTypes.DoubleType);
    Column named = array_contains(col("reasons"), col("main_reason"));
    return screened
        .withColumn("q_value", qValue.apply(col("fault_probability")))
        .withColumn(
            "marked",
            // The same as by its q-value, which most who ask for marks need not work out then.
            col("fault_probability")
                .geq(lit(rule.lowestMarked()))
                .and(col("judgement").isin(JUDGED)))
        // A mark is made among all engines, so its reason may be too weak to be told without it.
        .withColumn(
            "reasons",
            when(
                    col("marked").and(not(named)),
                    array_union(array(col("main_reason")), col("reasons")))
                .otherwise(col("reasons")))
        .withColumn(
            "suspect_cylinders",
            when(col("marked"), col("named_cylinders")).otherwise(col("suspect_cylinders")));
  }

  /** The marked engines in rank order, each with the deviations of its last test. */
  static Dataset<Row> ranked(Dataset<Row> statuses) {
    return statuses
        .where(col("marked"))
        .select(
            col("vehicle_id"),
            col("engine_id"),
            col("family_id"),
            col("priority"),
            col("fault_probability"),
            col("main_reason"),
            col("suspect_cylinders"),
            col("evidence"),
            col("next_step"),
            col("last_tested_on"),
            col("site_id"),
            col("likely_causes"),
            col("cause_shares"),
            col("cause_evidence"),
            col("limit"),
            col("distance_to_limit_km"),
            col("distance_to_limit_lower_km"),
            col("distance_to_limit_upper_km"),
            col("hours_to_limit"),
            col("hours_to_limit_lower"),
            col("hours_to_limit_upper"),
            col("expected_saving"),
            col("deviation_pct"),
            col("q_value"),
            when(
                    col("original_engine"),
                    functions.coalesce(col("distance_km"), col("engine_hours")))
                .as("own_usage"),
            col("level_pct"),
            col("spread_pct"))
        .coalesce(1)
        .sortWithinPartitions(col("priority").desc(), col("vehicle_id"), col("engine_id"))
        .mapPartitions(new NumberRows(), Encoders.row(rankedSchema()));
  }

  private static StructType rankedSchema() {
    return TableSchemas.of(Table.WORK_LIST)
        .add("deviation_pct", DataTypes.createArrayType(DataTypes.DoubleType))
        .add("q_value", DataTypes.DoubleType)
        .add("own_usage", DataTypes.DoubleType)
        .add("level_pct", DataTypes.DoubleType)
        .add("spread_pct", DataTypes.DoubleType);
  }

  private static final class NumberRows implements MapPartitionsFunction<Row, Row> {
    @Override
    public Iterator<Row> call(Iterator<Row> rows) {
      return new Iterator<>() {
        private int rank;

        @Override
        public boolean hasNext() {
          return rows.hasNext();
        }

        @Override
        public Row next() {
          Row row = rows.next();
          Object[] cells = new Object[row.size() + 1];
          rank++;
          cells[0] = rank;
          for (int i = 0; i < row.size(); i++) {
            cells[i + 1] = row.get(i);
          }
          return RowFactory.create(cells);
        }
      };
    }
  }

  /** A ranked row as the work list's own value. */
  static WorkListEntry toEntry(Row row) {
    List<Integer> suspects = row.getList(row.fieldIndex("suspect_cylinders"));
    String reason = row.getAs("main_reason");
    return new WorkListEntry(
        row.getAs("rank"),
        row.getAs("vehicle_id"),
        row.getAs("engine_id"),
        row.getAs("family_id"),
        row.getAs("priority"),
        row.getAs("fault_probability"),
        Reason.valueOf(reason.toUpperCase(Locale.ROOT)),
        suspects,
        row.getAs("evidence"),
        row.getAs("next_step"),
        row.getAs("last_tested_on"),
        row.getAs("site_id"),
        outlook(row));
  }

  private static Outlook outlook(Row row) {
    List<String> causes = row.getList(row.fieldIndex("likely_causes"));
    List<Double> shares = row.getList(row.fieldIndex("cause_shares"));
    return new Outlook(
        causes.stream().map(code -> Cause.of(code).orElseThrow()).toList(),
        shares,
        row.getAs("cause_evidence"),
        toLimit(row),
        real(row, "expected_saving"));
  }

  private static LimitDistance toLimit(Row row) {
    boolean hours = !row.isNullAt(row.fieldIndex("hours_to_limit_lower"));
    String name = hours ? "hours_to_limit%s" : "distance_to_limit%s_km";
    String limit = row.getAs("limit");
    return new LimitDistance(
        hours ? UsageAxis.HOURS : UsageAxis.KM,
        LimitDistance.Limit.valueOf(limit.toUpperCase(Locale.ROOT)),
        real(row, name.formatted("")),
        real(row, name.formatted("_lower")),
        real(row, name.formatted("_upper")));
  }

  /** A ranked row with its change, as the report lists it. */
  static ListedEngine toListed(Row row) {
    List<Double> deviationsPct = row.getList(row.fieldIndex("deviation_pct"));
    return new ListedEngine(
        toEntry(row),
        deviationsPct,
        row.<Double>getAs("q_value"),
        figures(row),
        MarkChange.valueOf(row.getAs("change")));
  }

  /** The figures of a row's last trusted test; NaN for what it does not say. */
  static LastFigures figures(Row row) {
    return new LastFigures(real(row, "own_usage"), real(row, "level_pct"), real(row, "spread_pct"));
  }

  private static double real(Row row, String column) {
    Double value = row.getAs(column);
    return value == null ? Double.NaN : value;
  }
}

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
import borecensus.worklist.LimitDistance;
import borecensus.worklist.Outlook;
import borecensus.worklist.WorkListEntry;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.api.java.UDF1;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.expressions.UserDefinedFunction;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.storage.StorageLevel;
import org.apache.spark.unsafe.types.UTF8String;

/** Marks and ranks: only what is marked is ever sorted. */
final class WorkListStage {
  private static final Object[] JUDGED = {
    Judgement.JUDGED.code(), Judgement.JUDGED_SMALL_FAMILY.code()
  };

  /** The same words as rows hold them. */
  private static final Set<UTF8String> JUDGED_WORDS =
      Arrays.stream(JUDGED)
          .map(code -> UTF8String.fromString((String) code))
          .collect(Collectors.toUnmodifiableSet());

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

  /** Whether a screened engine, as a row of {@link ScreeningField}, is marked. */
  static boolean isMarked(InternalRow screened, MarkRule rule) {
    return rule.marks(screened.getDouble(ScreeningField.FAULT_PROBABILITY.ordinal()))
        && JUDGED_WORDS.contains(screened.getUTF8String(ScreeningField.JUDGEMENT.ordinal()));
  }

  /**
   * The marked engines in rank order, in one partition, each as {@link RankedColumn} has it. Kept,
   * since several look at them: as plain rows, which none of them needs a plan for.
   */
  static JavaRDD<Row> ranked(Dataset<Row> statuses) {
    JavaRDD<Row> sorted =
        statuses
            .where(col("marked"))
            .select(RankedColumn.ofStatuses())
            // All cores look for the few; merely merged partitions would be one task's to scan.
            .repartition(1)
            .sortWithinPartitions(col("priority").desc(), col("vehicle_id"), col("engine_id"))
            .toJavaRDD();
    // Where Spark finds that nothing is marked, it leaves no partition at all.
    JavaRDD<Row> one =
        sorted.getNumPartitions() == 0
            ? JavaSparkContext.fromSparkContext(sorted.context()).parallelize(List.of(), 1)
            : sorted;
    return one.mapPartitions(NumberedRows::new).persist(StorageLevel.MEMORY_AND_DISK());
  }

  /** Rows in rank order, each with its rank before its other cells. */
  private static final class NumberedRows implements Iterator<Row> {
    private final Iterator<Row> rows;
    private int rank;

    NumberedRows(Iterator<Row> rows) {
      this.rows = rows;
    }

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
  }

  /** A ranked row as the work list's own value. */
  static WorkListEntry toEntry(Row row) {
    String reason = RankedColumn.MAIN_REASON.of(row);
    return new WorkListEntry(
        RankedColumn.RANK.of(row),
        RankedColumn.VEHICLE_ID.of(row),
        RankedColumn.ENGINE_ID.of(row),
        RankedColumn.FAMILY_ID.of(row),
        RankedColumn.PRIORITY.of(row),
        RankedColumn.FAULT_PROBABILITY.of(row),
        Reason.valueOf(reason.toUpperCase(Locale.ROOT)),
        RankedColumn.SUSPECT_CYLINDERS.listOf(row),
        RankedColumn.EVIDENCE.of(row),
        RankedColumn.NEXT_STEP.of(row),
        RankedColumn.LAST_TESTED_ON.of(row),
        RankedColumn.SITE_ID.of(row),
        outlook(row));
  }

  private static Outlook outlook(Row row) {
    List<String> causes = RankedColumn.LIKELY_CAUSES.listOf(row);
    return new Outlook(
        causes.stream().map(code -> Cause.of(code).orElseThrow()).toList(),
        RankedColumn.CAUSE_SHARES.listOf(row),
        RankedColumn.CAUSE_EVIDENCE.of(row),
        toLimit(row),
        RankedColumn.EXPECTED_SAVING.realOf(row));
  }

  private static LimitDistance toLimit(Row row) {
    String code = RankedColumn.LIMIT.of(row);
    LimitDistance.Limit limit = LimitDistance.Limit.valueOf(code.toUpperCase(Locale.ROOT));
    return RankedColumn.HOURS_TO_LIMIT_LOWER.isIn(row)
        ? new LimitDistance(
            UsageAxis.HOURS,
            limit,
            RankedColumn.HOURS_TO_LIMIT.realOf(row),
            RankedColumn.HOURS_TO_LIMIT_LOWER.realOf(row),
            RankedColumn.HOURS_TO_LIMIT_UPPER.realOf(row))
        : new LimitDistance(
            UsageAxis.KM,
            limit,
            RankedColumn.DISTANCE_TO_LIMIT_KM.realOf(row),
            RankedColumn.DISTANCE_TO_LIMIT_LOWER_KM.realOf(row),
            RankedColumn.DISTANCE_TO_LIMIT_UPPER_KM.realOf(row));
  }

  /** A ranked row with its change, as the report lists it. */
  static ListedEngine toListed(Row row, MarkChange change) {
    return new ListedEngine(
        toEntry(row),
        RankedColumn.DEVIATION_PCT.listOf(row),
        RankedColumn.Q_VALUE.<Double>of(row),
        new LastFigures(
            RankedColumn.OWN_USAGE.realOf(row),
            RankedColumn.LEVEL_PCT.realOf(row),
            RankedColumn.SPREAD_PCT.realOf(row)),
        change);
  }
}

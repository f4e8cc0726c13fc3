package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.night.hadoop.Folders;
import borecensus.report.ChangesSince;
import borecensus.report.ChangesSince.Cleared;
import borecensus.report.ChangesSince.Counted;
import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;
import borecensus.report.ReportLimits;
import borecensus.tables.Table;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** What became of the marks since the night before: only marked engines are ever compared. */
final class ChangeStage {
  private ChangeStage() {}

  /**
   * What the report shows of the ranked engines.
   *
   * @param listed the first of them, as many as have a page
   * @param changes in numbers and by their first engines
   */
  record Compared(List<ListedEngine> listed, ChangesSince changes) {}

  /**
   * Compares the ranked engines with those marked on the night before, in one task.
   *
   * @param ranked one partition, by rank
   * @param previous empty on the first night
   * @param statuses of all engines tonight
   */
  static Compared compared(
      JavaRDD<Row> ranked, Optional<PreviousNight> previous, Dataset<Row> statuses) {
    if (previous.isEmpty()) {
      List<ListedEngine> listed =
          ranked.take(ReportLimits.ENGINES).stream()
              .map(row -> WorkListStage.toListed(row, MarkChange.FIRST_NIGHT))
              .toList();
      return new Compared(listed, ChangesSince.firstNight());
    }
    JavaRDD<MarkedBefore> before = before(statuses.sparkSession(), previous.get());
    MarkComparison comparison = ranked.zipPartitions(before, new Compare()).collect().get(0);
    ChangesSince changes =
        new ChangesSince(
            previous.get().asOf(),
            new Counted<>(comparison.fresh(), comparison.count(MarkChange.NEW)),
            new Counted<>(comparison.worse(), comparison.count(MarkChange.WORSE)),
            comparison.count(MarkChange.UNCHANGED),
            new Counted<>(cleared(comparison.cleared(), statuses), comparison.clearedInAll()));
    return new Compared(comparison.listed(), changes);
  }

  /** The marked engines of the night before, in one partition. */
  private static JavaRDD<MarkedBefore> before(SparkSession spark, PreviousNight night) {
    return spark
        .read()
        .schema(TableSchemas.of(Table.ENGINE_STATUS))
        .parquet(Folders.source(night.snapshot().resolve(Table.ENGINE_STATUS.tableName())))
        .where(col("marked"))
        .select(
            "vehicle_id",
            "engine_id",
            "last_tested_on",
            "fault_probability",
            "level_pct",
            "spread_pct")
        .toJavaRDD()
        .map(
            row ->
                new MarkedBefore(
                    row.getString(0),
                    row.getString(1),
                    row.getAs(2),
                    orNaN(row, 3),
                    orNaN(row, 4),
                    orNaN(row, 5)))
        .repartition(1);
  }

  private static double orNaN(Row row, int field) {
    return row.isNullAt(field) ? Double.NaN : row.getDouble(field);
  }

  private record Compare()
      implements FlatMapFunction2<Iterator<Row>, Iterator<MarkedBefore>, MarkComparison> {
    @Override
    public Iterator<MarkComparison> call(Iterator<Row> ranked, Iterator<MarkedBefore> before) {
      return List.of(MarkComparison.of(before, new AsEngines(ranked))).iterator();
    }
  }

  /** Ranked rows as the engines that they tell of. */
  private record AsEngines(Iterator<Row> rows) implements Iterator<RankedEngine> {
    @Override
    public boolean hasNext() {
      return rows.hasNext();
    }

    @Override
    public RankedEngine next() {
      return new RankedRow(rows.next());
    }
  }

  private record RankedRow(Row row) implements RankedEngine {
    @Override
    public EngineName name() {
      return new EngineName(RankedColumn.VEHICLE_ID.of(row), RankedColumn.ENGINE_ID.of(row));
    }

    @Override
    public MarkChange.Figures figures() {
      return new MarkChange.Figures(
          RankedColumn.FAULT_PROBABILITY.realOf(row),
          RankedColumn.LEVEL_PCT.realOf(row),
          RankedColumn.SPREAD_PCT.realOf(row));
    }

    @Override
    public ListedEngine listed(MarkChange change) {
      return WorkListStage.toListed(row, change);
    }
  }

  /** A few engines that were marked, with what is known of them tonight. */
  private static List<Cleared> cleared(List<MarkedBefore> gone, Dataset<Row> statuses) {
    if (gone.isEmpty()) {
      return List.of();
    }
    Map<EngineName, Row> tonight = new HashMap<>();
    for (Row row :
        statuses
            .where(col("vehicle_id").isin(gone.stream().map(MarkedBefore::vehicleId).toArray()))
            .select("vehicle_id", "engine_id", "last_tested_on", "fault_probability")
            .collectAsList()) {
      tonight.put(new EngineName(row.getString(0), row.getString(1)), row);
    }
    List<Cleared> cleared = new ArrayList<>();
    for (MarkedBefore marked : gone) {
      Row now = tonight.get(marked.name());
      cleared.add(
          new Cleared(
              marked.vehicleId(),
              marked.testedOn(),
              now == null ? null : now.getAs(2),
              now != null,
              now == null ? Double.NaN : orNaN(now, 3)));
    }
    return cleared;
  }
}

package borecensus.night;

import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.count;
import static org.apache.spark.sql.functions.lit;

import borecensus.causes.CauseTable;
import borecensus.domain.Cause;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.Reason;
import borecensus.inspections.AuditDraw;
import borecensus.inspections.FindingRate;
import borecensus.inspections.InspectedEngine;
import borecensus.inspections.InspectionGroup;
import borecensus.report.InspectionsGlance.Counted;
import borecensus.report.InspectionsGlance.Inspected;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.api.java.UDF4;
import org.apache.spark.sql.expressions.UserDefinedFunction;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.DataTypes;

/** What the inspections of all engines, those taken out included, have taught. */
final class InspectionStage {
  private InspectionStage() {}

  /** One row per finding: the engine as tonight's norms would have judged it that day. */
  static Dataset<Row> inspections(Dataset<Row> histories, Broadcast<NightModel> model) {
    return histories
        .where(col("finding_count").gt(0))
        .flatMap(new JudgeThen(model), Encoders.row(InspectionField.schema()));
  }

  private record JudgeThen(Broadcast<NightModel> model) implements FlatMapFunction<Row, Row> {
    @Override
    public Iterator<Row> call(Row row) {
      EngineHistory history = model.value().doubted(HistoryRows.toHistory(row));
      List<Row> rows = new ArrayList<>();
      if (model.value().norms().family(history.familyId()).isPresent()) {
        for (Finding finding : history.findings()) {
          rows.add(toRow(InspectedEngine.of(history, finding, model.value().norms())));
        }
      }
      return rows.iterator();
    }
  }

  private static Row toRow(InspectedEngine engine) {
    Finding finding = engine.finding();
    boolean told = finding.result() != FindingResult.INCONCLUSIVE;
    return RowFactory.create(
        engine.history().familyId(),
        engine.history().engineId(),
        finding.inspectedOn(),
        told ? finding.foundFault() : null,
        finding.cause() == null ? null : finding.cause().code(),
        engine.pattern() == null ? null : engine.pattern().code(),
        engine.faultProbability());
  }

  /** How often each cause was found behind each pattern; at most patterns x causes are gathered. */
  static CauseTable causes(Dataset<Row> inspections) {
    Map<Reason, Map<Cause, Long>> counts = new EnumMap<>(Reason.class);
    for (Row row :
        inspections
            .where(col("fault").isNotNull().and(col("cause").isNotNull()))
            .where(col("pattern").isNotNull())
            .groupBy("pattern", "cause")
            .agg(count(lit(1)))
            .collectAsList()) {
      counts
          .computeIfAbsent(
              Reason.valueOf(row.getString(0).toUpperCase(Locale.ROOT)),
              reason -> new EnumMap<>(Cause.class))
          .put(Cause.of(row.getString(1)).orElseThrow(), row.getLong(2));
    }
    return CauseTable.withFindings(counts);
  }

  /** Hit rates; at most families x groups x reasons are gathered. */
  static List<FindingRate> rates(
      Dataset<Row> inspections, MarkRule rule, List<AuditStage.Drawn> drawn) {
    UserDefinedFunction group =
        functions.udf(
            (UDF4<String, LocalDate, String, Double, String>)
                (engineId, day, pattern, probability) ->
                    group(pattern, rule.marks(probability), isDrawn(drawn, engineId, day)).code(),
            DataTypes.StringType);
    List<FindingRate.Count> counts = new ArrayList<>();
    for (Row row :
        inspections
            .withColumn(
                "group",
                group.apply(
                    col("engine_id"),
                    col("inspected_on"),
                    col("pattern"),
                    col("fault_probability")))
            .groupBy("family_id", "group", "pattern", "fault")
            .agg(count(lit(1)))
            .collectAsList()) {
      counts.add(
          new FindingRate.Count(
              row.getString(0),
              InspectionGroup.valueOf(row.getString(1).toUpperCase(Locale.ROOT)),
              row.isNullAt(2) ? "" : row.getString(2),
              row.isNullAt(3) ? null : row.getBoolean(3),
              row.getLong(4)));
    }
    return FindingRate.of(counts);
  }

  private static InspectionGroup group(String pattern, boolean marked, boolean drawn) {
    if (pattern == null) {
      return InspectionGroup.NOT_JUDGED;
    }
    if (marked) {
      return InspectionGroup.MARKED;
    }
    return drawn ? InspectionGroup.DRAWN_AT_RANDOM : InspectionGroup.NOT_MARKED;
  }

  private static boolean isDrawn(List<AuditStage.Drawn> drawn, String engineId, LocalDate day) {
    return drawn.stream()
        .anyMatch(
            d ->
                d.engineId().equals(engineId)
                    && AuditDraw.answers(YearMonth.parse(d.month()), day));
  }

  /** The published rows. */
  static List<Row> rows(List<FindingRate> rates) {
    return rates.stream()
        .map(
            rate ->
                TableSchemas.row(
                    rate.familyId(),
                    rate.reason(),
                    rate.inspected(),
                    rate.confirmed(),
                    rate.noFaultFound(),
                    rate.inconclusive(),
                    rate.hitRate(),
                    rate.limits().lower(),
                    rate.limits().upper()))
        .toList();
  }

  /** The engines that were inspected last, as the morning page shows them. */
  static Counted<Inspected> latest(StatusGlance glance) {
    List<Inspected> latest = new ArrayList<>();
    for (Row row : glance.first(StatusList.INSPECTED)) {
      latest.add(
          new Inspected(
              StatusColumn.VEHICLE_ID.of(row),
              StatusColumn.ENGINE_ID.of(row),
              StatusColumn.FAMILY_ID.of(row),
              StatusColumn.INSPECTED_ON.of(row),
              FindingResult.CONFIRMED.code().equals(StatusColumn.INSPECTION_RESULT.of(row)),
              StatusColumn.CLEARED_ON.of(row),
              StatusColumn.MARKED.<Boolean>of(row)));
    }
    return new Counted<>(latest, glance.count(StatusList.INSPECTED));
  }
}

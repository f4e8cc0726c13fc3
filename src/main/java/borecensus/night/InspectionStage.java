package borecensus.night;

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
import java.io.Serializable;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.catalyst.InternalRow;

/** What the inspections of all engines, those taken out included, have taught. */
final class InspectionStage {
  private InspectionStage() {}

  /** One row per finding: the engine as tonight's norms would have judged it that day. */
  static KeptRows inspections(KeptRows settled, Broadcast<NightModel> model) {
    return KeptRows.ofValues(
        settled.rowsInFewParts().mapPartitions(new JudgeThen(model)), InspectionField.schema());
  }

  private record JudgeThen(Broadcast<NightModel> model)
      implements FlatMapFunction<Iterator<InternalRow>, Row> {
    @Override
    public Iterator<Row> call(Iterator<InternalRow> settled) {
      Iterator<EngineHistory> inspected =
          new SettledHistories<>(settled, HistoryRows::hasFindings, HistoryRows::toHistory);
      List<Row> rows = new ArrayList<>();
      while (inspected.hasNext()) {
        EngineHistory history = model.value().doubted(inspected.next());
        if (model.value().norms().family(history.familyId()).isPresent()) {
          for (Finding finding : history.findings()) {
            rows.add(toRow(InspectedEngine.of(history, finding, model.value().norms())));
          }
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
  static CauseTable causes(KeptRows inspections) {
    Map<Reason, Map<Cause, Long>> counts = new EnumMap<>(Reason.class);
    counted(inspections, row -> InspectionField.FAULT.isIn(row) ? Found.of(row) : null)
        .forEach(
            (found, n) ->
                counts
                    .computeIfAbsent(
                        Reason.valueOf(found.pattern().toUpperCase(Locale.ROOT)),
                        reason -> new EnumMap<>(Cause.class))
                    .put(Cause.of(found.cause()).orElseThrow(), n));
    return CauseTable.withFindings(counts);
  }

  /** A cause that was found behind a pattern. */
  private record Found(String pattern, String cause) implements Serializable {
    /** Null where either is not known. */
    static Found of(InternalRow row) {
      return InspectionField.CAUSE.isIn(row) && InspectionField.PATTERN.isIn(row)
          ? new Found(InspectionField.PATTERN.text(row), InspectionField.CAUSE.text(row))
          : null;
    }
  }

  /** What is counted of an inspection; null for nothing. */
  private interface Key<K> extends Serializable {
    K of(InternalRow row);
  }

  private static <K> Map<K, Long> counted(KeptRows inspections, Key<K> counted) {
    Map<K, Long> all = new HashMap<>();
    for (Map<K, Long> part :
        inspections.rowsInFewParts().mapPartitions(rows -> parts(rows, counted)).collect()) {
      part.forEach((key, n) -> all.merge(key, n, Long::sum));
    }
    return all;
  }

  private static <K> Iterator<Map<K, Long>> parts(Iterator<InternalRow> rows, Key<K> counted) {
    Map<K, Long> counts = new HashMap<>();
    while (rows.hasNext()) {
      K key = counted.of(rows.next());
      if (key != null) {
        counts.merge(key, 1L, Long::sum);
      }
    }
    return List.of(counts).iterator();
  }

  /** Hit rates; at most families x groups x reasons are gathered. */
  static List<FindingRate> rates(
      KeptRows inspections, MarkRule rule, List<AuditStage.Drawn> drawn) {
    List<FindingRate.Count> counts = new ArrayList<>();
    List<AuditStage.Drawn> all = new ArrayList<>(drawn);
    counted(inspections, row -> Outcome.of(row, rule, all))
        .forEach(
            (outcome, n) ->
                counts.add(
                    new FindingRate.Count(
                        outcome.familyId(),
                        outcome.group(),
                        outcome.pattern() == null ? "" : outcome.pattern(),
                        outcome.fault(),
                        n)));
    return FindingRate.of(counts);
  }

  /**
   * What an inspection counts for.
   *
   * @param pattern null when the engine was not judged
   * @param fault whether one was found; null when that was not told
   */
  private record Outcome(String familyId, InspectionGroup group, String pattern, Boolean fault)
      implements Serializable {
    static Outcome of(InternalRow row, MarkRule rule, List<AuditStage.Drawn> drawn) {
      String pattern = InspectionField.PATTERN.text(row);
      boolean isDrawn =
          isDrawn(
              drawn,
              InspectionField.ENGINE_ID.text(row),
              LocalDate.ofEpochDay(row.getInt(InspectionField.INSPECTED_ON.ordinal())));
      double probability = row.getDouble(InspectionField.FAULT_PROBABILITY.ordinal());
      return new Outcome(
          InspectionField.FAMILY_ID.text(row),
          InspectionStage.group(pattern, rule.marks(probability), isDrawn),
          pattern,
          InspectionField.FAULT.isIn(row) ? row.getBoolean(InspectionField.FAULT.ordinal()) : null);
    }
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

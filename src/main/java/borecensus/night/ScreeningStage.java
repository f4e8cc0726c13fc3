package borecensus.night;

import borecensus.causes.CauseTable;
import borecensus.domain.EngineHistory;
import borecensus.domain.FleetCosts;
import borecensus.norms.FleetNorms;
import borecensus.statistics.FalseShareCounts;
import borecensus.worklist.FleetKnowledge;
import java.io.Serializable;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;

/** Every engine in service against the norms. */
final class ScreeningStage {
  /**
   * What the work list would say of an engine is long, and marks are known only when the whole
   * fleet is screened. Hardly ever is an engine marked that is less probably faulty than this.
   */
  static final double USUALLY_WORTH_A_BRIEF = 0.04;

  private ScreeningStage() {}

  /**
   * One row per engine in service, with the work list's columns from some probability on.
   *
   * @return from rows of {@link HistoryField} to rows of {@link ScreeningField}, each overwritten
   *     by the next one
   */
  static FlatMapFunction<Iterator<InternalRow>, InternalRow> screen(
      Broadcast<NightModel> model, Spoken spoken, EngineExtras.Tonight tonight) {
    return new ScreenEngines(model, spoken, tonight);
  }

  /** What the work list goes by beside the norms, which are many and travel once. */
  record Spoken(CauseTable causes, FleetCosts costs) implements Serializable {}

  private record ScreenEngines(
      Broadcast<NightModel> model, Spoken spoken, EngineExtras.Tonight tonight)
      implements FlatMapFunction<Iterator<InternalRow>, InternalRow> {
    @Override
    public Iterator<InternalRow> call(Iterator<InternalRow> settled) {
      return new PackedRows(
          new SettledHistories<>(settled, HistoryRows::isInService, this::screened),
          ScreeningField.schema());
    }

    private Row screened(InternalRow row) {
      FleetNorms norms = model.value().norms();
      EngineHistory history = HistoryRows.toHistory(row);
      return norms.family(history.familyId()).isEmpty()
          ? ScreeningRows.unusableFamily(history, norms.shares().prevalence(history.familyId()))
          : ScreeningRows.toRow(
              model.value().believed(history),
              HistoryRows.nextServiceOn(row),
              new FleetKnowledge(norms, spoken.causes(), spoken.costs()),
              tonight);
    }
  }

  /** Engines by their fault probability; only bins of counts are gathered. */
  static FalseShareCounts counts(KeptRows screened) {
    List<byte[]> parts = screened.internalRows().mapPartitions(new CountProbabilities()).collect();
    FalseShareCounts all = new FalseShareCounts();
    parts.forEach(part -> all.merge(FalseShareCounts.fromBytes(part)));
    return all;
  }

  private static final class CountProbabilities
      implements FlatMapFunction<Iterator<InternalRow>, byte[]> {
    @Override
    public Iterator<byte[]> call(Iterator<InternalRow> rows) {
      FalseShareCounts counts = new FalseShareCounts();
      int field = ScreeningField.FAULT_PROBABILITY.ordinal();
      rows.forEachRemaining(row -> counts.add(row.getDouble(field)));
      return List.of(counts.toBytes()).iterator();
    }
  }
}

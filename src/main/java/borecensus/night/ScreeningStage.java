package borecensus.night;

import static org.apache.spark.sql.functions.col;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.statistics.FalseShareCounts;
import borecensus.worklist.FleetKnowledge;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.MapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
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

  /** One row per engine in service, with the work list's columns from some probability on. */
  static Dataset<Row> screen(
      Dataset<Row> histories,
      Broadcast<NightModel> model,
      Broadcast<FleetKnowledge> knowledge,
      EngineExtras.Tonight tonight) {
    return histories
        .where(col("in_service"))
        .map(new ScreenEngine(model, knowledge, tonight), Encoders.row(ScreeningField.schema()));
  }

  private record ScreenEngine(
      Broadcast<NightModel> model,
      Broadcast<FleetKnowledge> knowledge,
      EngineExtras.Tonight tonight)
      implements MapFunction<Row, Row> {
    @Override
    public Row call(Row row) {
      FleetNorms norms = model.value().norms();
      EngineHistory history = HistoryRows.toHistory(row);
      return norms.family(history.familyId()).isEmpty()
          ? ScreeningRows.unusableFamily(history, norms.shares().prevalence(history.familyId()))
          : ScreeningRows.toRow(
              model.value().believed(history),
              row.getAs(HistoryField.NEXT_SERVICE_ON.ordinal()),
              knowledge.value(),
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

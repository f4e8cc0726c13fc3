package borecensus.night;

import static org.apache.spark.sql.functions.sum;

import borecensus.domain.EngineHistory;
import borecensus.norms.EngineResiduals;
import borecensus.norms.FleetNorms;
import borecensus.norms.GaugeSums;
import borecensus.norms.LearningPeriod;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/**
 * Gauge offsets from all tests of a fleet that is larger than the sample: a gauge that the sample
 * hardly met is known from every engine it has tested. Gathered is one row per gauge.
 */
final class GaugeStage {
  private static final StructType SCHEMA =
      new StructType()
          .add("gauge_id", DataTypes.StringType)
          .add("tests", DataTypes.LongType)
          .add("information", DataTypes.LongType)
          .add("score", DataTypes.LongType);

  private GaugeStage() {}

  /**
   * Norms with the offsets of all gauges.
   *
   * @param period whose tests teach
   */
  static FleetNorms refined(
      Dataset<Row> histories, Broadcast<NightModel> model, LearningPeriod period) {
    GaugeSums sums = new GaugeSums(model.value().norms());
    for (Row row :
        SampleStage.teaching(histories, period)
            .mapPartitions(new SumUp(model, period), Encoders.row(SCHEMA))
            .groupBy("gauge_id")
            .agg(sum("tests"), sum("information"), sum("score"))
            .collectAsList()) {
      sums.add(row.getString(0), new GaugeSums.Sum(row.getLong(1), row.getLong(2), row.getLong(3)));
    }
    return sums.refined();
  }

  private record SumUp(Broadcast<NightModel> model, LearningPeriod period)
      implements MapPartitionsFunction<Row, Row> {
    @Override
    public Iterator<Row> call(Iterator<Row> histories) {
      GaugeSums sums = new GaugeSums(model.value().norms());
      histories.forEachRemaining(row -> add(period.of(HistoryRows.toHistory(row)), sums));
      List<Row> rows = new ArrayList<>();
      sums.sums()
          .forEach(
              (id, sum) ->
                  rows.add(RowFactory.create(id, sum.tests(), sum.information(), sum.score())));
      return rows.iterator();
    }

    private void add(EngineHistory history, GaugeSums sums) {
      if (sums.learnsFrom(history)) {
        EngineResiduals residuals = model.value().residuals(history).residuals();
        if (residuals != null) {
          sums.add(residuals);
        }
      }
    }
  }
}

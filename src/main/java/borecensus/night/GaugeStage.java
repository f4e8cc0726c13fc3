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
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;
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
   * @param settled rows of {@link HistoryField}
   * @param period whose tests teach
   */
  static FleetNorms refined(
      SparkSession spark, KeptRows settled, Broadcast<NightModel> model, LearningPeriod period) {
    GaugeSums sums = new GaugeSums(model.value().norms());
    JavaRDD<Row> parts = settled.internalRows().mapPartitions(new SumUp(model, period));
    for (Row row :
        spark
            .createDataFrame(parts, SCHEMA)
            .groupBy("gauge_id")
            .agg(sum("tests"), sum("information"), sum("score"))
            .collectAsList()) {
      sums.add(row.getString(0), new GaugeSums.Sum(row.getLong(1), row.getLong(2), row.getLong(3)));
    }
    return sums.refined();
  }

  private record SumUp(Broadcast<NightModel> model, LearningPeriod period)
      implements FlatMapFunction<Iterator<InternalRow>, Row> {
    @Override
    public Iterator<Row> call(Iterator<InternalRow> settled) {
      GaugeSums sums = new GaugeSums(model.value().norms());
      new SettledHistories<>(
              settled, row -> HistoryRows.teaches(row, period), HistoryRows::toHistory)
          .forEachRemaining(history -> add(period.of(history), sums));
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

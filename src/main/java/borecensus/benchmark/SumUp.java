package borecensus.benchmark;

import borecensus.domain.PressureUnit;
import borecensus.physics.ReferencePressure;
import borecensus.physics.StandardAtmosphere;
import java.util.Iterator;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;
import scala.collection.Seq;

/** One test to its level and spread at reference pressure. */
final class SumUp implements MapPartitionsFunction<Row, Row> {
  static final StructType SCHEMA =
      new StructType()
          .add("vehicle_id", DataTypes.StringType)
          .add("level", DataTypes.DoubleType)
          .add("spread_pct", DataTypes.DoubleType);

  private final TreeMap<String, Double> elevationsM;

  SumUp(Map<String, Double> elevationsM) {
    this.elevationsM = new TreeMap<>(elevationsM);
  }

  @Override
  public Iterator<Row> call(Iterator<Row> rows) {
    return new Iterator<>() {
      @Override
      public boolean hasNext() {
        return rows.hasNext();
      }

      @Override
      public Row next() {
        return summed(rows.next());
      }
    };
  }

  /** Columns: vehicle_id, site_id, unit, station_pressure_hpa, qnh_hpa, readings. */
  private Row summed(Row row) {
    PressureUnit unit = PressureUnit.of(row.getString(2)).orElseThrow();
    double factor =
        ReferencePressure.toReferenceKpa(
            unit.toKpa(1), ambientHpa(row.getString(1), row.getDouble(3), row.getDouble(4)));
    Seq<Double> readings = row.getAs(5);
    double logs = 0;
    int read = 0;
    double lowest = Double.POSITIVE_INFINITY;
    double highest = 0;
    for (int c = 0; c < readings.length(); c++) {
      double reading = readings.apply(c);
      if (reading > 0) {
        logs += Math.log(reading);
        read++;
        lowest = Math.min(lowest, reading);
        highest = Math.max(highest, reading);
      }
    }
    return RowFactory.create(
        row.getString(0), logs / read + Math.log(factor), 100 * (highest - lowest) / highest);
  }

  private double ambientHpa(String siteId, double stationHpa, double qnhHpa) {
    if (!Double.isNaN(stationHpa)) {
      return stationHpa;
    }
    double heightM = StandardAtmosphere.geopotentialHeightM(elevationsM.get(siteId));
    return Double.isNaN(qnhHpa)
        ? StandardAtmosphere.pressureHpa(heightM)
        : StandardAtmosphere.stationPressureHpa(qnhHpa, heightM);
  }
}

package borecensus.benchmark;

import borecensus.domain.PressureUnit;
import borecensus.physics.ReferencePressure;
import borecensus.physics.StandardAtmosphere;
import java.io.Serializable;
import java.util.HashMap;
import java.util.Map;
import org.apache.spark.sql.Row;
import scala.collection.Seq;

/** One test to its level and spread at reference pressure. */
final class SumUp implements Serializable {
  private final HashMap<String, Double> heightsM = new HashMap<>();

  /** Sums up the tests made at sites of these elevations. */
  SumUp(Map<String, Double> elevationsM) {
    elevationsM.forEach(
        (site, elevationM) ->
            heightsM.put(site, StandardAtmosphere.geopotentialHeightM(elevationM)));
  }

  /**
   * One test.
   *
   * @param level mean log reading; NaN when no cylinder was read
   */
  record Summary(String vehicleId, double level, double spreadPct) {}

  /** Columns: vehicle_id, site_id, unit, station_pressure_hpa, qnh_hpa, readings. */
  Summary summed(Row row) {
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
    return new Summary(
        row.getString(0), logs / read + Math.log(factor), 100 * (highest - lowest) / highest);
  }

  private double ambientHpa(String siteId, double stationHpa, double qnhHpa) {
    if (!Double.isNaN(stationHpa)) {
      return stationHpa;
    }
    double heightM = heightsM.get(siteId);
    return Double.isNaN(qnhHpa)
        ? StandardAtmosphere.pressureHpa(heightM)
        : StandardAtmosphere.stationPressureHpa(qnhHpa, heightM);
  }
}

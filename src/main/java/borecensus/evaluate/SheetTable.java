package borecensus.evaluate;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.physics.StandardAtmosphere;
import borecensus.registers.Registers;
import java.util.ArrayList;
import java.util.List;

/** Drawn tests as rows of a sheet file. */
final class SheetTable {
  private static final long MICRO = 1_000_000;

  private final Registers registers;

  SheetTable(Registers registers) {
    this.registers = registers;
  }

  List<String> header() {
    List<String> header =
        new ArrayList<>(
            List.of("test_id", "vehicle_id", "tested_at", "odometer_km", "site_id", "gauge_id"));
    header.addAll(List.of("unit", "kind", "throttle", "station_pressure_hpa", "qnh_hpa"));
    for (int c = 1; c <= Limits.MAX_CYLINDERS; c++) {
      header.add("cyl_" + c);
    }
    return header;
  }

  /** One test. */
  List<String> row(CompressionTest test) {
    Gauge gauge = registers.gauges().get(test.gaugeId());
    List<String> row = new ArrayList<>(List.of(test.testId(), test.engineId()));
    row.add(test.testedAt().toString());
    row.add(number(test.distanceKm()));
    row.addAll(List.of(test.siteId(), test.gaugeId(), gauge.unit().code(), "dry", "open"));
    boolean barometer = test.ambientSource() == AmbientSource.STATION_PRESSURE;
    row.add(barometer ? number(test.ambientHpa()) : "");
    row.add(test.ambientSource() == AmbientSource.QNH ? number(qnh(test)) : "");
    for (int c = 0; c < Limits.MAX_CYLINDERS; c++) {
      boolean read = c < test.gaugeKpa().length;
      row.add(read ? number(gauge.unit().fromKpa(test.gaugeKpa()[c])) : "");
    }
    return row;
  }

  private double qnh(CompressionTest test) {
    double elevationM = registers.sites().get(test.siteId()).elevationM();
    double heightM = StandardAtmosphere.geopotentialHeightM(elevationM);
    return Bench.qnh(test.ambientHpa(), heightM);
  }

  /** Six digits behind the point, without those that conversion there and back leaves. */
  static String number(double value) {
    long micro = Math.round(value * MICRO);
    long whole = micro / MICRO;
    long fraction = Math.abs(micro % MICRO);
    String sign = micro < 0 && whole == 0 ? "-" : "";
    if (fraction == 0) {
      return sign + whole;
    }
    String digits = Long.toString(MICRO + fraction).substring(1);
    int end = digits.length();
    while (digits.charAt(end - 1) == '0') {
      end--;
    }
    return sign + whole + '.' + digits.substring(0, end);
  }
}

package borecensus.evaluate;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.Family;
import borecensus.domain.Gauge;
import borecensus.domain.Limits;
import borecensus.domain.Site;
import borecensus.physics.StandardAtmosphere;
import borecensus.registers.Registers;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes a drawn fleet as a fleet folder, so that a whole night can be run on it. */
final class FleetOnFiles {
  private final Registers registers;
  private final List<TrueEngine> engines;

  private FleetOnFiles(TrueFleet fleet) {
    this.registers = fleet.registers();
    this.engines = fleet.engines();
  }

  /** Writes into a folder, which is made when there is none. */
  static void write(TrueFleet fleet, Path folder) throws IOException {
    Files.createDirectories(folder.resolve("sheets"));
    new FleetOnFiles(fleet).write(folder);
  }

  private void write(Path folder) throws IOException {
    table(folder.resolve("families.csv"), families());
    table(folder.resolve("vehicles.csv"), vehicles());
    table(folder.resolve("sites.csv"), sites());
    table(folder.resolve("gauges.csv"), gauges());
    table(folder.resolve("sheets/evaluation.csv"), sheets());
  }

  private static void table(Path file, List<List<String>> rows) throws IOException {
    try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
      rows.forEach(csv::writeRecord);
    }
  }

  private List<List<String>> families() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("family_id", "fuel", "cylinders", "banks"));
    for (Family f : registers.families().values()) {
      String cylinders = String.valueOf(f.cylinders());
      rows.add(List.of(f.familyId(), f.fuel().code(), cylinders, f.banks().text()));
    }
    return rows;
  }

  private List<List<String>> vehicles() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("vehicle_id", "family_id", "in_service_on", "home_site_id"));
    for (TrueEngine engine : engines) {
      String home = engine.history().homeSiteId();
      String vehicle = engine.history().vehicleId();
      rows.add(List.of(vehicle, engine.history().familyId(), "2011-06-01", home));
    }
    return rows;
  }

  private List<List<String>> sites() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("site_id", "elevation_m"));
    for (Site site : registers.sites().values()) {
      rows.add(List.of(site.siteId(), String.valueOf(site.elevationM())));
    }
    return rows;
  }

  private List<List<String>> gauges() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("gauge_id", "unit", "resolution", "full_scale"));
    for (Gauge gauge : registers.gauges().values()) {
      String step = String.valueOf(gauge.resolution());
      rows.add(List.of(gauge.gaugeId(), gauge.unit().code(), step, ""));
    }
    return rows;
  }

  private List<List<String>> sheets() {
    List<List<String>> rows = new ArrayList<>();
    List<String> header =
        new ArrayList<>(
            List.of("test_id", "vehicle_id", "tested_at", "odometer_km", "site_id", "gauge_id"));
    header.addAll(List.of("unit", "kind", "throttle", "station_pressure_hpa", "qnh_hpa"));
    for (int c = 1; c <= Limits.MAX_CYLINDERS; c++) {
      header.add("cyl_" + c);
    }
    rows.add(header);
    engines.forEach(e -> e.history().tests().forEach(test -> rows.add(sheet(test))));
    return rows;
  }

  private List<String> sheet(CompressionTest test) {
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

  /** Without the last digits, which conversion there and back leaves. */
  private static String number(double value) {
    return BigDecimal.valueOf(value)
        .setScale(6, RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }
}

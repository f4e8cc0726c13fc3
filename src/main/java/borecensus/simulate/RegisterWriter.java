package borecensus.simulate;

import borecensus.domain.Repair;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** Writes what the fleet knows of itself: families, vehicles, sites, gauges, repairs, findings. */
record RegisterWriter(Scenario scenario, List<VehiclePlan> vehicles, Path fleet) {

  void write() throws IOException {
    writeFamilies();
    writeVehicles();
    writeSites();
    writeGauges();
    writeRepairs();
    writeFindings();
  }

  private void writeFamilies() throws IOException {
    CsvTable table =
        new CsvTable(
            "family_id",
            "fuel",
            "cylinders",
            "banks",
            "firing_order",
            "compression_ratio",
            "nominal_kpa",
            "min_kpa",
            "max_spread_pct",
            "wet_test");
    for (FamilyPlan f : scenario.families()) {
      FamilyPlan.MakerLimits limits = f.limits();
      table.add(
          f.familyId(),
          f.fuel().code(),
          f.cylinders(),
          f.banks(),
          f.firingOrder(),
          CsvTable.number(f.compressionRatio(), 2),
          CsvTable.number(limits.nominalKpa(), 1),
          CsvTable.number(limits.minKpa(), 1),
          CsvTable.number(limits.maxSpreadPct(), 1),
          f.wetTest() == null ? "" : f.wetTest().code());
    }
    table.write(fleet.resolve("families.csv"));
  }

  private void writeVehicles() throws IOException {
    CsvTable table =
        new CsvTable("vehicle_id", "family_id", "engine_serial", "in_service_on", "home_site_id");
    for (VehiclePlan v : vehicles) {
      // The register keeps the engine that came with the vehicle; repairs.csv tells the rest.
      table.add(
          v.vehicleId(),
          v.family().familyId(),
          v.engines().get(0).serial(),
          v.inServiceOn(),
          v.home().siteId());
    }
    table.write(fleet.resolve("vehicles.csv"));
  }

  private void writeSites() throws IOException {
    CsvTable table = new CsvTable("site_id", "elevation_m");
    scenario.depots().forEach(d -> table.add(d.siteId(), CsvTable.number(d.elevationM(), 1)));
    table.write(fleet.resolve("sites.csv"));
  }

  private void writeGauges() throws IOException {
    CsvTable table = new CsvTable("gauge_id", "unit", "resolution", "full_scale", "accuracy_pct");
    for (GaugePlan g : scenario.gauges()) {
      table.add(
          g.gaugeId(),
          g.unit().code(),
          CsvTable.number(g.resolution(), 4),
          CsvTable.number(g.fullScale(), 4),
          CsvTable.number(g.accuracyPct(), 2));
    }
    table.write(fleet.resolve("gauges.csv"));
  }

  private void writeRepairs() throws IOException {
    CsvTable table = new CsvTable("vehicle_id", "done_on", "work", "new_engine_serial");
    for (VehiclePlan v : vehicles) {
      for (Repair r : v.repairs()) {
        table.add(r.vehicleId(), r.doneOn(), r.work().code(), r.newEngineSerial());
      }
    }
    table.write(fleet.resolve("repairs.csv"));
  }

  private void writeFindings() throws IOException {
    CsvTable table = new CsvTable("vehicle_id", "inspected_on", "result", "cause", "cylinders");
    for (VehiclePlan v : vehicles) {
      for (VehiclePlan.Finding f : v.findings()) {
        table.add(
            v.vehicleId(), f.inspectedOn(), f.result(), f.cause(), CsvTable.joined(f.cylinders()));
      }
    }
    table.write(fleet.resolve("findings.csv"));
  }
}

package borecensus.simulate;

import borecensus.domain.Reason;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Writes what is true of the fleet, for measuring what a screening finds. */
record TruthWriter(Scenario scenario, Path truth) {
  private static final String SOUND = "none";

  /** Every engine that was tested, with its fault on the day of its last test. */
  void writeEngines(List<VehiclePlan> vehicles) throws IOException {
    CsvTable table =
        new CsvTable(
            "vehicle_id",
            "engine_id",
            "family_id",
            "in_service",
            "fault_kind",
            "severity_pct",
            "cylinders",
            "cause",
            "onset_on",
            "cured_on",
            "cured_kind",
            "tests",
            "last_tested_on",
            "offset_pct");
    for (VehiclePlan v : vehicles) {
      for (EnginePlan engine : v.engines()) {
        addEngine(table, v, engine);
      }
    }
    table.write(truth.resolve("engines.csv"));
  }

  private static void addEngine(CsvTable table, VehiclePlan v, EnginePlan engine) {
    List<LocalDate> days = v.testDays(engine);
    LocalDate last = days.get(days.size() - 1);
    Optional<FaultPlan> standing = engine.fault().filter(f -> f.curedOn().isEmpty());
    Optional<FaultPlan> cured = engine.fault().filter(f -> f.curedOn().isPresent());
    table.add(
        v.vehicleId(),
        engine.serial(),
        v.family().familyId(),
        engine.removedOn().isEmpty(),
        standing.map(FaultPlan::kind).map(Reason::code).orElse(SOUND),
        CsvTable.number(standing.map(f -> f.severityPct(last)).orElse(0.0), 2),
        standing.map(f -> CsvTable.joined(f.cylinders())).orElse(""),
        standing.map(f -> f.cause().code()).orElse(""),
        standing.map(f -> f.growth().onsetOn().toString()).orElse(""),
        cured.flatMap(FaultPlan::curedOn).map(LocalDate::toString).orElse(""),
        cured.map(FaultPlan::kind).map(Reason::code).orElse(""),
        days.size(),
        last,
        CsvTable.number(100 * Math.expm1(engine.offsetLog()), 2));
  }

  /** The median reading of each family's engines against use, without anyone's offset. */
  void writeFamilies() throws IOException {
    CsvTable table = new CsvTable("family_id", "distance_km", "engine_hours", "median_kpa");
    for (FamilyPlan family : scenario.families()) {
      for (int i = 0; i <= family.meter().gridPoints(); i++) {
        double use = i * family.meter().gridStep();
        String shown = CsvTable.number(use, 0);
        boolean hours = family.meter() == UsageMeter.HOURS;
        table.add(
            family.familyId(),
            hours ? "" : shown,
            hours ? shown : "",
            CsvTable.number(Math.exp(family.logMeanKpa(use)), 2));
      }
    }
    table.write(truth.resolve("families.csv"));
  }

  void writeGauges(Map<String, Double> offsetPct) throws IOException {
    CsvTable table = new CsvTable("gauge_id", "offset_pct");
    offsetPct.forEach((gauge, pct) -> table.add(gauge, CsvTable.number(pct, 3)));
    table.write(truth.resolve("gauges.csv"));
  }

  /** The rows that the job should refuse or supersede; records count from 1 after the header. */
  void writeDirtyRows(List<SheetFile> files) throws IOException {
    CsvTable table = new CsvTable("source_file", "row_number", "code");
    for (SheetFile file : files) {
      for (int i = 0; i < file.rows().size(); i++) {
        String code = file.rows().get(i).expectedCode();
        if (!code.isEmpty()) {
          table.add(file.path(), i + 1, code);
        }
      }
    }
    table.write(truth.resolve("dirty_rows.csv"));
  }

  /** Every true test with what was wrong on its day. */
  void writeTests(List<SimulatedTest> tests) throws IOException {
    CsvTable table =
        new CsvTable(
            "test_id",
            "engine_id",
            "kind",
            "measurement_fault",
            "fault_severity_pct",
            "ambient_hpa");
    for (SimulatedTest test : tests) {
      LocalDate day = test.at().toLocalDate();
      double severity = test.engine().fault().map(f -> f.severityPct(day)).orElse(0.0);
      table.add(
          test.testId(),
          test.engine().serial(),
          test.kind().code(),
          test.measurementFault().code(),
          CsvTable.number(severity, 2),
          CsvTable.number(test.conditions().ambientHpa(), 1));
    }
    table.write(truth.resolve("tests.csv"));
  }
}

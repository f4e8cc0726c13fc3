package borecensus.ledger;

import borecensus.domain.Doubt;
import borecensus.domain.Finding;
import borecensus.domain.Repair;
import borecensus.domain.RowCode;
import borecensus.domain.Vehicle;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetColumn;
import borecensus.intake.SheetRow;
import borecensus.ledger.EngineTimeline.Engine;
import borecensus.ledger.SettledVehicle.Segment;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Settles all sheets of one vehicle: checks each, resolves repeats and corrections, tells the
 * engines apart, drops odometers that run backwards, and notes doubts. The order of these steps is
 * the order of the methods below.
 */
public final class VehicleSettler {
  /** By day, and within a day by distance: some sheets of a day carry a time and some do not. */
  private static final Comparator<LedgerSheet> BY_TIME =
      Comparator.comparing((LedgerSheet sheet) -> sheet.row().testedAt().toLocalDate())
          .thenComparingDouble(sheet -> sheet.row().odometerKm())
          .thenComparingDouble(sheet -> sheet.row().engineHours())
          .thenComparing(sheet -> sheet.row().testedAt())
          .thenComparing(sheet -> sheet.row().testId());

  private final Registers registers;
  private final LocalDate asOf;
  private final SheetChecks checks;

  public VehicleSettler(Registers registers, LocalDate asOf) {
    this.registers = registers;
    this.asOf = asOf;
    this.checks = new SheetChecks(registers, asOf);
  }

  /** Settles a registered vehicle. */
  public SettledVehicle settle(VehicleFile file, List<LedgerSheet> sheets) {
    Outcome.Builder outcome = new Outcome.Builder();
    List<LedgerSheet> sound = sound(sheets, file.vehicle(), outcome);
    List<LedgerSheet> standing = TestIdentity.resolve(sound, outcome);
    standing.sort(BY_TIME);
    EngineTimeline timeline = new EngineTimeline(file, rows(standing), asOf);
    List<SettledTest> tests = new ArrayList<>();
    for (Stretch stretch : byEngine(standing, timeline)) {
      tests.addAll(settleEngine(stretch, file.vehicle(), outcome));
    }
    tests.sort(Comparator.comparing(SettledTest::sheet, BY_TIME));
    return new SettledVehicle(file.vehicle(), segments(tests, file, timeline), outcome.build());
  }

  /** Refuses all sheets of a vehicle that is not registered. */
  public SettledVehicle settleUnknown(List<LedgerSheet> sheets) {
    Outcome.Builder outcome = new Outcome.Builder();
    sound(sheets, null, outcome);
    return new SettledVehicle(null, List.of(), outcome.build());
  }

  /** Whether a sheet stands as far as the registers can tell. */
  public boolean stands(LedgerSheet sheet, Vehicle vehicle) {
    return checks.check(sheet.row(), vehicle).isEmpty();
  }

  private List<LedgerSheet> sound(
      List<LedgerSheet> sheets, Vehicle vehicle, Outcome.Builder outcome) {
    List<LedgerSheet> sound = new ArrayList<>();
    List<LedgerSheet> byIntake = new ArrayList<>(sheets);
    byIntake.sort(LedgerSheet.BY_INTAKE);
    for (LedgerSheet sheet : byIntake) {
      Optional<RowRefusal> broken = checks.check(sheet.row(), vehicle);
      broken.ifPresentOrElse(refusal -> outcome.refuse(sheet, refusal), () -> sound.add(sheet));
    }
    return sound;
  }

  /** All tests of one engine, oldest first. */
  private record Stretch(Engine engine, List<LedgerSheet> sheets) {}

  private static List<Stretch> byEngine(List<LedgerSheet> byTime, EngineTimeline timeline) {
    Map<String, Stretch> stretches = new LinkedHashMap<>();
    for (int i = 0; i < byTime.size(); i++) {
      Engine engine = timeline.engineOfRow().get(i);
      stretches
          .computeIfAbsent(engine.engineId(), id -> new Stretch(engine, new ArrayList<>()))
          .sheets()
          .add(byTime.get(i));
    }
    return List.copyOf(stretches.values());
  }

  private List<SettledTest> settleEngine(
      Stretch stretch, Vehicle vehicle, Outcome.Builder outcome) {
    List<SheetRow> rows = rows(stretch.sheets());
    List<Optional<SheetColumn>> fallen = UsageOrder.fallen(rows);
    List<LedgerSheet> kept = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      LedgerSheet sheet = stretch.sheets().get(i);
      fallen
          .get(i)
          .ifPresentOrElse(
              column -> outcome.refuse(sheet, backwards(sheet.row(), column, stretch.engine())),
              () -> kept.add(sheet));
    }
    return withDoubts(kept, stretch.engine(), vehicle);
  }

  private List<SettledTest> withDoubts(List<LedgerSheet> sheets, Engine engine, Vehicle vehicle) {
    List<SheetRow> rows = rows(sheets);
    boolean[] copied = Doubts.copied(rows, resolutions(rows));
    List<SettledTest> tests = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      List<Doubt> doubts =
          Doubts.ofSheet(rows.get(i), TestPlace.elevationM(rows.get(i), vehicle, registers));
      if (copied[i]) {
        doubts.add(Doubt.COPIED_READINGS);
      }
      tests.add(new SettledTest(sheets.get(i), engine.engineId(), doubts));
    }
    return tests;
  }

  private static List<SheetRow> rows(List<LedgerSheet> sheets) {
    List<SheetRow> rows = new ArrayList<>(sheets.size());
    sheets.forEach(sheet -> rows.add(sheet.row()));
    return rows;
  }

  /** The reading step of each row's gauge in the row's unit. */
  private double[] resolutions(List<SheetRow> rows) {
    double[] resolutions = new double[rows.size()];
    for (int i = 0; i < resolutions.length; i++) {
      SheetRow row = rows.get(i);
      resolutions[i] = row.unit().fromKpa(registers.gauges().get(row.gaugeId()).resolutionKpa());
    }
    return resolutions;
  }

  private static RowRefusal backwards(SheetRow row, SheetColumn column, Engine engine) {
    double value = column == SheetColumn.ENGINE_HOURS ? row.engineHours() : row.odometerKm();
    return RowRefusal.of(
        row.place(),
        RowCode.ODOMETER_BACKWARDS,
        column.columnName(),
        String.valueOf(value),
        "it does not rise with the date among the tests of engine " + engine.engineId());
  }

  /** Tests by engine and by the works that restart a history; the engine in service comes last. */
  private List<Segment> segments(
      List<SettledTest> testsByTime, VehicleFile file, EngineTimeline timeline) {
    Engine inService = timeline.inService();
    Segments bySegment = new Segments(inService.engineId(), restarts(file));
    testsByTime.forEach(bySegment::add);
    for (Finding finding : file.findings()) {
      if (!finding.inspectedOn().isAfter(asOf)) {
        bySegment.add(finding);
      }
    }
    return bySegment.inOrder(
        engineId ->
            engineId.equals(inService.engineId())
                ? inService.original()
                : timeline.engineOfRow().stream()
                    .anyMatch(engine -> engine.engineId().equals(engineId) && engine.original()));
  }

  private List<LocalDate> restarts(VehicleFile file) {
    List<LocalDate> restarts = new ArrayList<>();
    for (Repair repair : file.repairs()) {
      if (repair.work().restartsHistory() && !repair.doneOn().isAfter(asOf)) {
        restarts.add(repair.doneOn());
      }
    }
    return restarts;
  }
}

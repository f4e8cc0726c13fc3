package borecensus.simulate;

import borecensus.domain.Repair;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;

/**
 * One vehicle with everything that happens to it.
 *
 * @param inServiceOn day on which the odometer or hour meter stood at zero
 * @param usePerYear in km or hours, as the family's meter says
 * @param engines oldest first; the last is in service
 * @param tests dry tests, oldest first
 * @param followUp what follows the last test
 */
record VehiclePlan(
    String vehicleId,
    FamilyPlan family,
    DepotPlan home,
    LocalDate inServiceOn,
    double usePerYear,
    List<EnginePlan> engines,
    List<TestSlot> tests,
    FollowUp followUp,
    List<Repair> repairs,
    List<Finding> findings) {
  private static final double DAYS_PER_YEAR = 365.25;

  /** What follows the last test. */
  enum FollowUp {
    NONE,
    WET_TEST
  }

  /** A planned dry test. */
  record TestSlot(LocalDateTime at, DepotPlan depot, MeasurementFault measurementFault) {
    LocalDate day() {
      return at.toLocalDate();
    }
  }

  /** What the workshop saw; cause and cylinders may be empty. */
  record Finding(LocalDate inspectedOn, String result, String cause, List<Integer> cylinders) {}

  VehiclePlan {
    engines = List.copyOf(engines);
    tests = List.copyOf(tests);
    repairs = List.copyOf(repairs);
    findings = List.copyOf(findings);
  }

  VehiclePlan withEngines(List<EnginePlan> others, List<Repair> work) {
    return new VehiclePlan(
        vehicleId, family, home, inServiceOn, usePerYear, others, tests, followUp, work, findings);
  }

  VehiclePlan withLastEngine(EnginePlan other, List<Repair> work) {
    List<EnginePlan> others = new ArrayList<>(engines);
    others.set(others.size() - 1, other);
    return withEngines(others, work);
  }

  VehiclePlan withFindings(List<Finding> others) {
    return new VehiclePlan(
        vehicleId,
        family,
        home,
        inServiceOn,
        usePerYear,
        engines,
        tests,
        followUp,
        repairs,
        others);
  }

  VehiclePlan withFollowUp(FollowUp other) {
    return new VehiclePlan(
        vehicleId, family, home, inServiceOn, usePerYear, engines, tests, other, repairs, findings);
  }

  EnginePlan lastEngine() {
    return engines.get(engines.size() - 1);
  }

  LocalDate lastTestDay() {
    return tests.get(tests.size() - 1).day();
  }

  EnginePlan engineOn(LocalDate day) {
    return engines.stream().filter(e -> e.inVehicleOn(day)).findFirst().orElseThrow();
  }

  /** What the odometer shows, in km; only for a family whose wear is counted in distance. */
  double odometerKm(LocalDate day) {
    return usePerYear * years(inServiceOn, day);
  }

  /** What the engine itself has done, in km or hours; an hour meter is replaced with its engine. */
  double engineUse(EnginePlan engine, LocalDate day) {
    return usePerYear * years(engine.fittedOn(), day);
  }

  /** The days on which one engine is tested dry, oldest first. */
  List<LocalDate> testDays(EnginePlan engine) {
    return tests.stream().map(TestSlot::day).filter(engine::inVehicleOn).toList();
  }

  private static double years(LocalDate from, LocalDate to) {
    return (to.toEpochDay() - from.toEpochDay()) / DAYS_PER_YEAR;
  }
}

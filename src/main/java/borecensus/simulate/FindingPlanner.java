package borecensus.simulate;

import borecensus.simulate.VehiclePlan.Finding;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Draws what the workshop found when it opened an engine. */
final class FindingPlanner {
  private static final double CONFIRMED_SHARE = 0.85;

  /** Least severity at which an earlier test led to an inspection, in per cent. */
  private static final double NOTICEABLE_PCT = 8;

  private FindingPlanner() {}

  /** Draws the findings on an engine with the given test days, oldest first. */
  static List<Finding> plan(
      Scenario.Habits habits, EnginePlan engine, List<LocalDate> testDays, Draws draws) {
    if (engine.fault().isEmpty()) {
      return healthy(habits, testDays, draws);
    }
    FaultPlan fault = engine.fault().get();
    Optional<LocalDate> marked = markedOn(fault, testDays);
    boolean inspected = fault.curedOn().isPresent() || draws.chance(habits.findingShare());
    if (marked.isEmpty() || !inspected) {
      return List.of();
    }
    LocalDate day = inspectionDay(fault, marked.get());
    if (!draws.chance(CONFIRMED_SHARE)) {
      return List.of(new Finding(day, "inconclusive", "", List.of()));
    }
    return List.of(new Finding(day, "confirmed", fault.cause().code(), fault.cylinders()));
  }

  /** The first test before the last one of the engine's faulty time at which the fault showed. */
  private static Optional<LocalDate> markedOn(FaultPlan fault, List<LocalDate> testDays) {
    LocalDate last = testDays.get(testDays.size() - 1);
    return testDays.stream()
        .filter(day -> day.isBefore(last) && fault.severityPct(day) >= NOTICEABLE_PCT)
        .findFirst();
  }

  private static LocalDate inspectionDay(FaultPlan fault, LocalDate marked) {
    LocalDate usual = marked.plusDays(9);
    return fault.curedOn().filter(cure -> cure.isBefore(usual)).orElse(usual);
  }

  private static List<Finding> healthy(
      Scenario.Habits habits, List<LocalDate> testDays, Draws draws) {
    if (!draws.chance(habits.healthyFindingShare())) {
      return List.of();
    }
    String cause = draws.chance(0.5) ? "measurement" : "";
    LocalDate day = draws.pick(testDays);
    return List.of(new Finding(day, "no_fault_found", cause, List.of()));
  }
}

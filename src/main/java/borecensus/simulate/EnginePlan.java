package borecensus.simulate;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * One true engine: how it differs from its family, and what is wrong with it.
 *
 * @param fittedOn first day in the vehicle
 * @param removedOn day on which another engine took its place; empty for the one in service
 * @param offsetLog lasting difference of the whole engine, on the log reading
 * @param slopeLogPerSpan difference of its wear per span, on the log reading
 * @param cylinderLog lasting difference of each cylinder, cylinder 1 first
 */
record EnginePlan(
    String serial,
    LocalDate fittedOn,
    Optional<LocalDate> removedOn,
    double offsetLog,
    double slopeLogPerSpan,
    List<Double> cylinderLog,
    Optional<FaultPlan> fault) {

  EnginePlan {
    cylinderLog = List.copyOf(cylinderLog);
  }

  EnginePlan withFault(FaultPlan planted) {
    return new EnginePlan(
        serial, fittedOn, removedOn, offsetLog, slopeLogPerSpan, cylinderLog, Optional.of(planted));
  }

  EnginePlan withRemoval(LocalDate day) {
    return new EnginePlan(
        serial, fittedOn, Optional.of(day), offsetLog, slopeLogPerSpan, cylinderLog, fault);
  }

  boolean inVehicleOn(LocalDate day) {
    return !day.isBefore(fittedOn) && removedOn.map(day::isBefore).orElse(true);
  }

  /** What the fault leaves of a cylinder's reading on a day: 1 for sound, 0 for dead. */
  double faultFactor(int cylinder, LocalDate day) {
    return fault.map(f -> f.factor(cylinder, day)).orElse(1.0);
  }
}

package borecensus.simulate;

import borecensus.domain.Fuel;
import borecensus.simulate.VehiclePlan.TestSlot;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** Draws when and where a vehicle is tested, and which of its tests are spoiled. */
record TestCalendar(Scenario scenario) {
  private static final int MIN_GAP_DAYS = 21;
  private static final int MOST_TESTS = 12;
  private static final int FEWEST_CYLINDERS_FOR_NEVER_FALLING = 4;

  /** Draws the dry tests of a vehicle, oldest first, at least one. */
  List<TestSlot> draw(FamilyPlan family, DepotPlan home, LocalDate inServiceOn, Draws draws) {
    LocalDate from = latest(scenario.firstTestOn(), inServiceOn.plusDays(30));
    List<TestSlot> slots = new ArrayList<>();
    for (LocalDate day : days(from, scenario.asOf().minusDays(1), draws)) {
      LocalDateTime at = day.atTime(draws.whole(7, 15), draws.whole(0, 59));
      slots.add(new TestSlot(at, depot(family, home, draws), spoiling(family, slots, draws)));
    }
    return slots;
  }

  /** Distinct days, none closer to the one before than the smallest gap. */
  private List<LocalDate> days(LocalDate from, LocalDate to, Draws draws) {
    int wanted = 1 + draws.poisson(scenario.habits().testsPerVehicle() - 1);
    TreeSet<LocalDate> drawn = new TreeSet<>();
    for (int i = 0; i < Math.min(wanted, MOST_TESTS); i++) {
      drawn.add(from.plusDays(draws.whole(0, (int) (to.toEpochDay() - from.toEpochDay()))));
    }
    List<LocalDate> spaced = new ArrayList<>();
    LocalDate earliest = from;
    for (LocalDate day : drawn) {
      LocalDate moved = latest(day, earliest);
      if (!moved.isAfter(to)) {
        spaced.add(moved);
        earliest = moved.plusDays(MIN_GAP_DAYS);
      }
    }
    return spaced;
  }

  private DepotPlan depot(FamilyPlan family, DepotPlan home, Draws draws) {
    boolean away = draws.chance(scenario.habits().awayShare());
    return away ? draws.pick(depotsFor(family), DepotPlan::weight) : home;
  }

  /** The depots that have a gauge for the family. */
  List<DepotPlan> depotsFor(FamilyPlan family) {
    return scenario.depots().stream()
        .filter(
            depot ->
                scenario.gauges().stream()
                    .anyMatch(g -> g.siteId().equals(depot.siteId()) && g.suits(family)))
        .toList();
  }

  private MeasurementFault spoiling(FamilyPlan family, List<TestSlot> before, Draws draws) {
    MeasurementFault chosen = MeasurementFault.NONE;
    for (Scenario.MeasurementFaultRate rate : scenario.measurementFaults()) {
      if (draws.chance(rate.share())) {
        chosen = rate.kind();
      }
    }
    return possible(chosen, family, before) ? chosen : MeasurementFault.NONE;
  }

  private static boolean possible(
      MeasurementFault fault, FamilyPlan family, List<TestSlot> before) {
    return switch (fault) {
      case NEVER_FALLING -> family.cylinders() >= FEWEST_CYLINDERS_FOR_NEVER_FALLING;
      case CLOSED_THROTTLE -> family.fuel() != Fuel.DIESEL;
      case COPIED_READINGS ->
          !before.isEmpty()
              && before.get(before.size() - 1).measurementFault() == MeasurementFault.NONE;
      default -> true;
    };
  }

  private static LocalDate latest(LocalDate a, LocalDate b) {
    return a.isAfter(b) ? a : b;
  }
}

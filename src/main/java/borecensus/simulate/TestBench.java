package borecensus.simulate;

import borecensus.simulate.VehiclePlan.FollowUp;
import borecensus.simulate.VehiclePlan.TestSlot;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Runs the planned tests of a vehicle and notes what the dials show. */
record TestBench(
    Scenario scenario, RandomStreams streams, Weather weather, ReadingPhysics physics) {
  private static final int WET_AFTER_MINUTES = 35;

  /** All tests of a vehicle, oldest first. */
  List<SimulatedTest> run(VehiclePlan vehicle) {
    Draws draws = streams.stream("tests", vehicle.vehicleId());
    List<SimulatedTest> done = new ArrayList<>();
    for (TestSlot slot : vehicle.tests()) {
      Optional<SimulatedTest> before =
          done.isEmpty() ? Optional.empty() : Optional.of(done.get(done.size() - 1));
      done.add(dry(vehicle, slot, before, draws));
    }
    if (vehicle.followUp() == FollowUp.WET_TEST) {
      done.add(wet(done.get(done.size() - 1), draws));
    }
    return done;
  }

  private SimulatedTest dry(
      VehiclePlan vehicle, TestSlot slot, Optional<SimulatedTest> before, Draws draws) {
    SimulatedTest empty = new TestSetUp(scenario, weather).prepare(vehicle, slot, draws);
    List<Double> readings = readings(empty, draws);
    boolean withFirst = draws.chance(scenario.habits().firstStrokeShare());
    List<Double> first = withFirst ? firstStrokes(empty, readings, draws) : List.of();
    if (slot.measurementFault() != MeasurementFault.COPIED_READINGS) {
      return empty.withReadings(readings, first);
    }
    return before
        .filter(b -> b.engine().equals(empty.engine()))
        .map(empty::copying)
        .orElseGet(() -> empty.sound().withReadings(readings, first));
  }

  private List<Double> readings(SimulatedTest test, Draws draws) {
    double shared = physics.sharedLog(test.vehicle(), test, draws);
    List<Double> readings = new ArrayList<>();
    double highest = 0;
    for (int c = 1; c <= test.vehicle().family().cylinders(); c++) {
      double shown = test.gauge().read(physics.readingKpa(shared, test, c, draws));
      highest = Math.max(highest, shown);
      boolean stuck = test.measurementFault() == MeasurementFault.NEVER_FALLING;
      boolean unread = draws.chance(scenario.habits().unreadShare()) && c > 1;
      readings.add(unread ? Double.NaN : stuck ? highest : shown);
    }
    return readings;
  }

  private List<Double> firstStrokes(SimulatedTest test, List<Double> readings, Draws draws) {
    List<Double> first = new ArrayList<>();
    for (int c = 1; c <= readings.size(); c++) {
      double kpa = test.gauge().unit().toKpa(readings.get(c - 1));
      first.add(
          Double.isNaN(kpa) ? kpa : test.gauge().read(physics.firstStrokeKpa(kpa, test, c, draws)));
    }
    return first;
  }

  private SimulatedTest wet(SimulatedTest dry, Draws draws) {
    SimulatedTest empty = dry.repeatedWet(WET_AFTER_MINUTES);
    return empty.withReadings(readings(empty, draws), List.of());
  }
}

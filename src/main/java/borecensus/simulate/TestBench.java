package borecensus.simulate;

import borecensus.domain.AmbientSource;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.simulate.SimulatedTest.Conditions;
import borecensus.simulate.VehiclePlan.FollowUp;
import borecensus.simulate.VehiclePlan.TestSlot;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Runs the planned tests of a vehicle and notes what the dials show. */
record TestBench(
    Scenario scenario, RandomStreams streams, Weather weather, ReadingPhysics physics) {
  private static final double TEMPERATURE_SD_C = 3;
  private static final double CRANKING_SD_RPM = 10;
  private static final double ROOM_TEMPERATURE_C = 20;
  private static final int TOO_FEW = 2;
  private static final double REMARK_SHARE = 0.12;
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
    SimulatedTest empty = setUp(vehicle, slot, draws);
    List<Double> readings = readings(empty, draws);
    boolean withFirst = draws.chance(scenario.habits().firstStrokeShare());
    List<Double> first = withFirst ? firstStrokes(empty, readings, draws) : List.of();
    if (slot.measurementFault() != MeasurementFault.COPIED_READINGS) {
      return with(empty, readings, first);
    }
    return before
        .filter(b -> b.engine().equals(empty.engine()))
        .map(b -> copied(empty, b))
        .orElseGet(() -> with(sound(empty), readings, first));
  }

  private SimulatedTest setUp(VehiclePlan vehicle, TestSlot slot, Draws draws) {
    EnginePlan engine = vehicle.engineOn(slot.day());
    List<GaugePlan> gauges =
        scenario.gauges().stream()
            .filter(g -> g.siteId().equals(slot.depot().siteId()) && g.suits(vehicle.family()))
            .toList();
    String id =
        String.format(
            Locale.ROOT, "%s-T%02d", vehicle.vehicleId(), 1 + vehicle.tests().indexOf(slot));
    // A change of engine that no repair records can be seen on the sheets alone.
    boolean unrecorded = vehicle.engines().indexOf(engine) > 0 && vehicle.repairs().isEmpty();
    boolean serial = draws.chance(slot.depot().serialShare()) || unrecorded;
    int remark = draws.chance(REMARK_SHARE) ? draws.whole(0, SheetCells.REMARKS - 1) : -1;
    return new SimulatedTest(
        id,
        vehicle,
        engine,
        slot.at(),
        slot.depot(),
        draws.pick(gauges),
        SheetKind.DRY,
        slot.measurementFault(),
        conditions(vehicle.family(), slot, draws),
        List.of(),
        List.of(),
        serial ? engine.serial() : "",
        remark);
  }

  private Conditions conditions(FamilyPlan family, TestSlot slot, Draws draws) {
    MeasurementFault fault = slot.measurementFault();
    boolean stated = draws.chance(scenario.habits().ambientShare());
    double usualC =
        fault == MeasurementFault.COLD_ENGINE
            ? ROOM_TEMPERATURE_C
            : family.protocol().engineTempC();
    return new Conditions(
        weather.stationHpa(slot.depot(), slot.day()),
        stated ? slot.depot().ambient() : AmbientSource.SITE_ELEVATION,
        Math.rint(usualC + draws.gaussian(TEMPERATURE_SD_C)),
        Math.rint(family.protocol().crankingRpm() + draws.gaussian(CRANKING_SD_RPM)),
        fault == MeasurementFault.TOO_FEW_STROKES ? TOO_FEW : family.protocol().strokes(),
        fault == MeasurementFault.CLOSED_THROTTLE ? Throttle.CLOSED : Throttle.OPEN);
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
    SimulatedTest empty =
        new SimulatedTest(
            dry.testId() + "W",
            dry.vehicle(),
            dry.engine(),
            dry.at().plusMinutes(WET_AFTER_MINUTES),
            dry.depot(),
            dry.gauge(),
            SheetKind.WET,
            MeasurementFault.NONE,
            dry.conditions(),
            List.of(),
            List.of(),
            dry.serialOnSheet(),
            -1);
    return with(empty, readings(empty, draws), List.of());
  }

  private static SimulatedTest with(SimulatedTest t, List<Double> readings, List<Double> first) {
    return new SimulatedTest(
        t.testId(),
        t.vehicle(),
        t.engine(),
        t.at(),
        t.depot(),
        t.gauge(),
        t.kind(),
        t.measurementFault(),
        t.conditions(),
        readings,
        first,
        t.serialOnSheet(),
        t.remark());
  }

  private static SimulatedTest sound(SimulatedTest t) {
    return new SimulatedTest(
        t.testId(),
        t.vehicle(),
        t.engine(),
        t.at(),
        t.depot(),
        t.gauge(),
        t.kind(),
        MeasurementFault.NONE,
        t.conditions(),
        t.readings(),
        t.firstStrokes(),
        t.serialOnSheet(),
        t.remark());
  }

  /** The earlier sheet under the new date and odometer: same depot, gauge and numbers. */
  private static SimulatedTest copied(SimulatedTest t, SimulatedTest before) {
    return new SimulatedTest(
        t.testId(),
        t.vehicle(),
        t.engine(),
        t.at(),
        before.depot(),
        before.gauge(),
        t.kind(),
        t.measurementFault(),
        before.conditions(),
        before.readings(),
        before.firstStrokes(),
        t.serialOnSheet(),
        t.remark());
  }
}

package borecensus.simulate;

import borecensus.domain.AmbientSource;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.simulate.SimulatedTest.Conditions;
import borecensus.simulate.VehiclePlan.TestSlot;
import java.util.List;
import java.util.Locale;

/** Draws the gauge, the air and the state of the engine for a planned test. */
record TestSetUp(Scenario scenario, Weather weather) {
  private static final double TEMPERATURE_SD_C = 3;
  private static final double CRANKING_SD_RPM = 10;
  private static final double ROOM_TEMPERATURE_C = 20;
  private static final int TOO_FEW = 2;
  private static final double REMARK_SHARE = 0.12;

  /** The test with everything but its readings. */
  SimulatedTest prepare(VehiclePlan vehicle, TestSlot slot, Draws draws) {
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
}

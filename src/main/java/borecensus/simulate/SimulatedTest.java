package borecensus.simulate;

import borecensus.domain.AmbientSource;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import java.time.LocalDateTime;
import java.util.List;

/**
 * One test as the mechanic saw it, before it is written on a sheet.
 *
 * @param readings in the gauge's unit, as read from the dial, cylinder 1 first; NaN = not read
 * @param firstStrokes the same for the first stroke; empty when not taken
 * @param serialOnSheet the engine serial as written; empty when the mechanic left it out
 * @param remark number of a remark among those of {@link SheetCells}, -1 for none
 */
record SimulatedTest(
    String testId,
    VehiclePlan vehicle,
    EnginePlan engine,
    LocalDateTime at,
    DepotPlan depot,
    GaugePlan gauge,
    SheetKind kind,
    MeasurementFault measurementFault,
    Conditions conditions,
    List<Double> readings,
    List<Double> firstStrokes,
    String serialOnSheet,
    int remark) {

  /**
   * The state of air and engine.
   *
   * @param ambientHpa true station pressure
   * @param stated the ambient-pressure cell that the sheet fills in; site_elevation for none
   */
  record Conditions(
      double ambientHpa,
      AmbientSource stated,
      double engineTempC,
      double crankingRpm,
      int strokes,
      Throttle throttle) {}

  SimulatedTest {
    readings = List.copyOf(readings);
    firstStrokes = List.copyOf(firstStrokes);
  }

  SimulatedTest withReadings(List<Double> last, List<Double> first) {
    return new SimulatedTest(
        testId,
        vehicle,
        engine,
        at,
        depot,
        gauge,
        kind,
        measurementFault,
        conditions,
        last,
        first,
        serialOnSheet,
        remark);
  }

  /** The same test with nothing wrong in the way it was made. */
  SimulatedTest sound() {
    return new SimulatedTest(
        testId,
        vehicle,
        engine,
        at,
        depot,
        gauge,
        kind,
        MeasurementFault.NONE,
        conditions,
        readings,
        firstStrokes,
        serialOnSheet,
        remark);
  }

  /** An earlier sheet under this date and odometer: its depot, gauge, conditions and numbers. */
  SimulatedTest copying(SimulatedTest before) {
    return new SimulatedTest(
        testId,
        vehicle,
        engine,
        at,
        before.depot,
        before.gauge,
        kind,
        measurementFault,
        before.conditions,
        before.readings,
        before.firstStrokes,
        serialOnSheet,
        remark);
  }

  /** The wet test that follows this dry one, still without readings. */
  SimulatedTest repeatedWet(int minutesLater) {
    return new SimulatedTest(
        testId + "W",
        vehicle,
        engine,
        at.plusMinutes(minutesLater),
        depot,
        gauge,
        SheetKind.WET,
        MeasurementFault.NONE,
        conditions,
        List.of(),
        List.of(),
        serialOnSheet,
        -1);
  }
}

package borecensus.simulate;

import borecensus.domain.Limits;
import borecensus.domain.SheetKind;
import java.time.LocalDate;
import java.util.Map;

/**
 * From a true engine to the pressure on the dial.
 *
 * <p>The log of a reading is a sum: family mean at the engine's use, position, engine, cylinder,
 * gauge, engine temperature, cranking speed and noise. Gauge pressure then goes with ambient
 * pressure: compressing air from p_a by a fixed ratio r with exponent n gives p_a (r^n - 1) on the
 * gauge, whatever r and n are.
 */
record ReadingPhysics(Scenario.ReadingModel model, Map<String, Double> gaugeOffsetPct) {
  private static final double FIRST_STROKE_SHARE = 0.57;
  private static final double NO_MORE_THAN_LAST = 0.95;
  private static final double FIRST_STROKE_SD = 0.02;

  /** Oil seals sound cylinders a little, worn rings much, leaking valves hardly. */
  private static final double WET_RISE_SOUND = 1.04;

  private static final double WET_RISE_RINGS = 1.14;
  private static final double WET_RISE_OTHER = 1.02;

  /** What all readings of one test share, on the log scale. */
  double sharedLog(VehiclePlan vehicle, SimulatedTest test, Draws draws) {
    EnginePlan engine = test.engine();
    double use = vehicle.engineUse(engine, test.at().toLocalDate());
    return vehicle.family().logMeanKpa(use)
        + engine.offsetLog()
        + engine.slopeLogPerSpan() * use / vehicle.family().meter().span()
        + Math.log1p(gaugeOffsetPct.get(test.gauge().gaugeId()) / 100)
        + protocolLog(vehicle.family().protocol(), test.conditions())
        + Math.log(test.measurementFault().factor())
        + Math.log(test.conditions().ambientHpa() / Limits.REFERENCE_AMBIENT_HPA)
        + draws.gaussian(model.testNoiseSdPct() / 100);
  }

  private double protocolLog(FamilyPlan.Protocol protocol, SimulatedTest.Conditions conditions) {
    double warmerC = conditions.engineTempC() - protocol.engineTempC();
    double fasterRpm = conditions.crankingRpm() - protocol.crankingRpm();
    return (model.temperaturePctPerC() * warmerC + model.rpmPctPerHundred() * fasterRpm / 100)
        / 100;
  }

  /** True pressure in the gauge, in kPa; 0 for a dead cylinder. */
  double readingKpa(double sharedLog, SimulatedTest test, int cylinder, Draws draws) {
    double log =
        sharedLog
            + test.vehicle().family().positionLog(cylinder)
            + test.engine().cylinderLog().get(cylinder - 1)
            + draws.gaussian(model.readingNoiseSdPct() / 100);
    return Math.exp(log) * faultFactor(test, cylinder) * wetRise(test, cylinder);
  }

  /** Pressure after the first stroke, in kPa, given what the cylinder reaches in the end. */
  double firstStrokeKpa(double lastKpa, SimulatedTest test, int cylinder, Draws draws) {
    double left = faultFactor(test, cylinder);
    double noise = Math.exp(draws.gaussian(FIRST_STROKE_SD));
    if (left == 0) {
      return 0;
    }
    double sound = FIRST_STROKE_SHARE * lastKpa / left;
    double fault = left < 1 ? test.engine().fault().orElseThrow().cause().firstStroke() : 1;
    return Math.min(NO_MORE_THAN_LAST * lastKpa, sound * fault * noise);
  }

  private static double faultFactor(SimulatedTest test, int cylinder) {
    LocalDate day = test.at().toLocalDate();
    return test.engine().faultFactor(cylinder, day);
  }

  private static double wetRise(SimulatedTest test, int cylinder) {
    if (test.kind() == SheetKind.DRY) {
      return 1;
    }
    if (faultFactor(test, cylinder) >= 1) {
      return WET_RISE_SOUND;
    }
    FaultPlan fault = test.engine().fault().orElseThrow();
    boolean rings = fault.cause() == FaultPlan.Cause.RINGS_BORE;
    return rings ? WET_RISE_RINGS : WET_RISE_OTHER;
  }
}

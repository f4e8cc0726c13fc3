package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.EngineHistory;
import borecensus.domain.Fuel;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectOutputStream;
import java.util.List;
import java.util.function.Consumer;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

/**
 * Fleets of known truth whose readings rise by 2 % for 10 degrees and by 3 % for 100 revolutions;
 * temperatures vary by 8 degrees from test to test, cranking by 15 revolutions.
 */
class CovariateTest {
  private static final double PER_10_DEGREES = 0.02;
  private static final double PER_100_RPM = 0.03;
  private static final RandomFleet FLEET = new RandomFleet(FleetPlan.of(600, 0.1), 41);

  private static FleetNorms estimate(List<EngineHistory> histories) {
    return NormEstimator.estimate(histories, FLEET.families, FLEET.gauges, Priors.load());
  }

  /** The conditions work; every fourth sheet or so does not state them. */
  private static List<EngineHistory> moved(double strength) {
    Well19937c random = new Well19937c(42);
    return EditedTest.all(
        FLEET.histories,
        test -> {
          double temp = 80 + 8 * random.nextGaussian();
          double rpm = 200 + 15 * random.nextGaussian();
          test.shiftLog =
              strength * (PER_10_DEGREES * (temp - 80) / 10 + PER_100_RPM * (rpm - 200) / 100);
          boolean stated = random.nextDouble() < 0.75;
          test.engineTempC = stated ? Math.rint(temp) : Double.NaN;
          test.crankingRpm = stated ? Math.rint(rpm) : Double.NaN;
        });
  }

  private static List<EngineHistory> edited(
      List<EngineHistory> histories, Consumer<EditedTest> edit) {
    return EditedTest.all(histories, edit);
  }

  private static double testSd(FleetNorms norms) {
    return Math.sqrt(norms.families().get("F1").components().test());
  }

  @Test
  void theEffectsOfTemperatureAndCrankingAreFoundWithHonestErrors() {
    CovariateEffects effects = estimate(moved(1)).covariates();
    CovariateEffect temperature = effects.of(Fuel.DIESEL, Covariate.ENGINE_TEMPERATURE);
    CovariateEffect cranking = effects.of(Fuel.DIESEL, Covariate.CRANKING_SPEED);
    assertEquals(PER_10_DEGREES, temperature.logPerUnit(), 3 * temperature.standardErrorLog());
    assertEquals(PER_100_RPM, cranking.logPerUnit(), 3 * cranking.standardErrorLog());
    // 1,500 tests with a noise of some 1.9 % and a spread of 0.8 units leave 0.06 %.
    assertTrue(temperature.standardErrorLog() < 0.0012, "" + temperature.standardErrorLog());
    assertTrue(cranking.standardErrorLog() < 0.006, "" + cranking.standardErrorLog());
  }

  @Test
  void ignoringTheConditionsWidensTheTestNoiseAndUsingThemRecoversIt() {
    List<EngineHistory> stated =
        edited(
            FLEET.histories,
            test -> {
              Well19937c random = new Well19937c(test.original.testId().hashCode());
              test.engineTempC = 80 + 8 * random.nextGaussian();
              test.shiftLog = PER_10_DEGREES * (test.engineTempC - 80) / 10;
            });
    List<EngineHistory> silent = edited(stated, test -> test.engineTempC = Double.NaN);
    double truth = Math.sqrt(FleetPlan.TRUE.test());
    // 0.08 is three times the relative error of a standard deviation of some 600 changes.
    assertEquals(1, testSd(estimate(stated)) / truth, 0.08);
    // 1.4 % and 1.6 % together are 2.1 %.
    assertEquals(Math.hypot(1.4, 1.6) / 1.4, testSd(estimate(silent)) / truth, 0.15);
  }

  @Test
  void conditionsWithoutAnEffectAreGivenNone() {
    CovariateEffects effects = estimate(moved(0)).covariates();
    for (Covariate covariate : Covariate.values()) {
      CovariateEffect effect = effects.of(Fuel.DIESEL, covariate);
      assertEquals(0, effect.logPerUnit(), 3 * effect.standardErrorLog(), covariate.name());
    }
  }

  @Test
  void conditionsThatNeverDifferChangeNoBitOfTheNorms() throws IOException {
    FleetNorms silent = estimate(FLEET.histories);
    FleetNorms same =
        estimate(
            edited(
                FLEET.histories,
                test -> {
                  test.engineTempC = 80;
                  test.crankingRpm = 200;
                }));
    assertEquals(CovariateEffects.NONE, silent.covariates());
    assertArrayEquals(bytes(silent), bytes(same));
  }

  @Test
  void anAbsurdTemperatureOnASheetDoesNotSpoilTheEffect() {
    List<EngineHistory> spoiled =
        edited(
            moved(1),
            test -> {
              test.engineTempC = test.original.engineTempC();
              test.crankingRpm = test.original.crankingRpm();
              if (Math.floorMod(test.original.testId().hashCode(), 100) == 0) {
                test.engineTempC = 176;
              }
            });
    CovariateEffect effect =
        estimate(spoiled).covariates().of(Fuel.DIESEL, Covariate.ENGINE_TEMPERATURE);
    // One in a hundred at the limit of four units, among a variance of 0.64, takes away a fifth.
    assertTrue(effect.logPerUnit() > 0.7 * PER_10_DEGREES, "" + effect.logPerUnit());
  }

  private static byte[] bytes(FleetNorms norms) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(norms.families());
      out.writeObject(norms.gauges());
      out.writeObject(norms.shares());
    }
    return bytes.toByteArray();
  }
}

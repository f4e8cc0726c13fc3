package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import java.util.Arrays;
import org.junit.jupiter.api.Test;

class FleetGeneratorTest {

  @Test
  void residuals_of_healthy_engines_have_the_variance_that_their_law_states() {
    for (EvaluationScenario scenario :
        new EvaluationScenario[] {
          EvaluationScenario.CLEAN, EvaluationScenario.MOUNTAIN, EvaluationScenario.HEAVY
        }) {
      TrueFleet fleet = FleetGenerator.draw(scenario.plan(), 2000, 3);
      double squares = 0;
      double expected = 0;
      for (TrueEngine engine : fleet.engines()) {
        if (engine.fault().isEmpty()) {
          ReadingLaw law = ReadingLaw.ofTruth(engine, fleet);
          squares += law.residual()[0][0] * law.residual()[0][0];
          expected +=
              law.levelCovariance()[0][0] + law.cylinderVariance() + law.readingVariance()[0][0];
        }
      }
      // The relative standard error of a variance over 1,900 engines is 3 %.
      assertEquals(1, squares / expected, 0.12, scenario.code());
    }
  }

  @Test
  void dials_show_whole_steps_and_mountain_sites_lie_up_to_3800_metres() {
    TrueFleet fleet = FleetGenerator.draw(EvaluationScenario.MOUNTAIN.plan(), 200, 7);

    double highest =
        fleet.registers().sites().values().stream()
            .mapToDouble(s -> s.elevationM())
            .max()
            .orElse(0);
    assertEquals(3800, highest, 1e-9);
    for (TrueEngine engine : fleet.engines()) {
      for (CompressionTest test : engine.history().tests()) {
        double step = fleet.registers().gauges().get(test.gaugeId()).resolutionKpa();
        for (double kpa : test.gaugeKpa()) {
          assertEquals(Math.rint(kpa / step), kpa / step, 1e-6);
        }
      }
    }
  }

  @Test
  void a_family_where_faults_are_common_has_about_a_quarter_faulty() {
    TrueFleet fleet = FleetGenerator.draw(EvaluationScenario.COMMON.plan(), 4000, 11);
    TrueFamily common =
        fleet.families().values().stream()
            .filter(f -> f.faultShare() > 0.2)
            .findFirst()
            .orElseThrow();
    TrueEngine[] engines =
        fleet.engines().stream()
            .filter(e -> fleet.familyOf(e) == common)
            .toArray(TrueEngine[]::new);

    double faulty = Arrays.stream(engines).filter(e -> e.fault().isPresent()).count();
    // 320 engines: the standard error of the share is 0.024.
    assertTrue(engines.length > 250, "engines " + engines.length);
    assertEquals(0.25, faulty / engines.length, 0.08);
  }

  @Test
  void the_same_seed_draws_the_same_fleet_and_another_seed_another() {
    FleetPlan plan = EvaluationScenario.TYPICAL.plan();

    assertEquals(
        lastReading(FleetGenerator.draw(plan, 100, 1)),
        lastReading(FleetGenerator.draw(plan, 100, 1)),
        0);
    assertTrue(
        lastReading(FleetGenerator.draw(plan, 100, 1))
            != lastReading(FleetGenerator.draw(plan, 100, 2)));
  }

  private static double lastReading(TrueFleet fleet) {
    TrueEngine last = fleet.engines().get(fleet.engines().size() - 1);
    return last.history().tests().get(0).referenceKpa()[0];
  }
}

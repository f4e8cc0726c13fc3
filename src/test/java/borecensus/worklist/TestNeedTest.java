package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class TestNeedTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 31);
  private static final EngineHistory ENGINE =
      new EngineHistory("V", "E", "F1", "S1", true, List.of());

  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(150, 0), 53);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  private static Optional<TestNeed> need(
      double probability, LocalDate lastTestedOn, LocalDate nextServiceOn) {
    return TestNeed.of(
        new TestNeed.Known("F1", probability, false, Double.NaN, lastTestedOn, nextServiceOn),
        norms.family("F1").orElseThrow(),
        norms.shares(),
        TODAY);
  }

  private static double score(double probability, int daysAgo, LocalDate nextServiceOn) {
    return need(probability, TODAY.minusDays(daysAgo), nextServiceOn).orElseThrow().score();
  }

  @Test
  void anEngineTestedLatelyNeedsNoTest() {
    assertEquals(Optional.empty(), need(0.3, TODAY.minusDays(5), null));
  }

  @Test
  void anUncertainEngineTellsMoreThanASureOne() {
    assertTrue(score(0.4, 100, null) > score(0.02, 100, null));
    assertTrue(score(0.4, 100, null) > score(0.999, 100, null));
  }

  @Test
  void theLongerAgoTheMoreATestTells() {
    assertTrue(score(0.01, 1500, null) > score(0.01, 200, null));
  }

  /** Half of the engines faulty in four years: a sound one is so with probability 0.5 then. */
  @Test
  void faultsComeAsOftenAsTheyAreCommon() {
    assertEquals(0.5, TestNeed.aged(0, 0.5, 4), 1e-12);
    assertEquals(0.3, TestNeed.aged(0.3, 0.2, 0), 1e-12);
  }

  @Test
  void aServiceThatTakesThePlugsOutIsAnOccasionWhenItIsNear() {
    double alone = score(0.2, 200, null);
    assertEquals(1.5 * alone, score(0.2, 200, TODAY.plusDays(20)), 1e-9);
    assertEquals(alone, score(0.2, 200, TODAY.plusDays(90)), 1e-9);
    assertTrue(
        need(0.2, TODAY.minusDays(200), TODAY.plusDays(20))
            .orElseThrow()
            .grounds()
            .inWords()
            .contains("the service due on 2026-04-20"));
  }

  @Test
  void anEngineNeverTestedSaysSo() {
    TestNeed need = need(norms.shares().prevalence("F1"), null, null).orElseThrow();
    String why = need.grounds().inWords();
    assertTrue(why.startsWith("Never tested; "), why);
    assertTrue(need.score() > 0 && need.score() <= 100);
  }
}

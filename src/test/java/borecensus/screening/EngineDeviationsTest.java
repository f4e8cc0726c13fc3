package borecensus.screening;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.HealthyModel;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Each test of an engine, to the last bit beside a model of that test alone. */
class EngineDeviationsTest {
  private static final int ENGINES = 60;

  private static List<EngineHistory> histories;
  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(300, 0.05), 47);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
    histories = fleet.histories.subList(0, ENGINES);
  }

  private static void assertEachAsAlone(EngineHistory history) {
    EngineDeviations deviations = EngineDeviations.of(ResidualEngine.of(history, norms), norms);
    for (CompressionTest test : history.tests()) {
      assertAsAlone(test, history, deviations.of(test));
    }
  }

  private static void assertAsAlone(
      CompressionTest test, EngineHistory history, TestDeviations found) {
    FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
    HealthyModel alone = HealthyModel.of(history, test, norm, norms);
    double sd = Math.sqrt(alone.readingTotalVariance(0));
    double[] z = Arrays.stream(alone.residual()[0]).map(r -> r / sd).toArray();
    assertArrayEquals(z, found.z());
    List<CylinderDeviation> listed = CylinderDeviation.of(test, history, norms);
    assertEquals(
        listed,
        IntStream.range(0, found.cylinders())
            .mapToObj(
                c ->
                    new CylinderDeviation(
                        c + 1, found.expectedKpa()[c], found.deviationPct()[c], found.z()[c]))
            .toList());
  }

  /** The same engine with another distance at each test, by its number from 0. */
  private static EngineHistory withDistances(EngineHistory history, double... distancesKm) {
    List<CompressionTest> tests = new ArrayList<>();
    for (int t = 0; t < distancesKm.length; t++) {
      CompressionTest like = history.tests().get(t % history.tests().size());
      tests.add(
          RandomFleet.test(
              history.engineId(), t, distancesKm[t], like.gaugeId(), like.referenceKpa()));
    }
    return history.withTests(tests);
  }

  @Test
  void aTestAmongOthersDeviatesAsItDoesAlone() {
    histories.forEach(EngineDeviationsTest::assertEachAsAlone);
  }

  @Test
  void theDistanceOfAnotherTestDoesNotMatter() {
    for (EngineHistory history : histories) {
      assertEachAsAlone(withDistances(history, 50_000, Double.NaN, 90_000));
    }
  }

  @Test
  void anEngineFittedLaterHasEachTestByItself() {
    for (EngineHistory h : histories) {
      assertEachAsAlone(
          new EngineHistory(
              h.vehicleId(), h.engineId(), h.familyId(), h.homeSiteId(), false, h.tests()));
    }
  }

  @Test
  void testsBeforeTheLastTwelveAreToldToo() {
    double[] distancesKm = IntStream.range(0, 15).mapToDouble(t -> 20_000 + 10_000 * t).toArray();
    EngineHistory many = withDistances(histories.get(0), distancesKm);
    assertTrue(ResidualEngine.of(many, norms).residuals().tests() < many.tests().size());
    assertEachAsAlone(many);
  }

  @Test
  void doubtfulTestsAreToldToo() {
    for (EngineHistory history : histories) {
      List<CompressionTest> tests = new ArrayList<>(history.tests());
      tests.set(0, tests.get(0).withDoubts(List.of(Doubt.COLD_ENGINE)));
      assertEachAsAlone(history.withTests(tests));
    }
  }

  @Test
  void anEngineWithoutATrustedTestHasItsDeviations() {
    EngineHistory one = histories.get(0);
    CompressionTest doubted = one.tests().get(0).withDoubts(List.of(Doubt.COLD_ENGINE));
    assertEachAsAlone(one.withTests(List.of(doubted)));
  }

  @Test
  void aFamilyThatTheNormsDoNotKnowIsRefused() {
    EngineHistory h = histories.get(0);
    EngineHistory unknown =
        new EngineHistory(h.vehicleId(), h.engineId(), "NONE", h.homeSiteId(), true, h.tests());
    CompressionTest test = unknown.tests().get(0);
    assertThrows(IllegalArgumentException.class, () -> CylinderDeviation.of(test, unknown, norms));
  }
}

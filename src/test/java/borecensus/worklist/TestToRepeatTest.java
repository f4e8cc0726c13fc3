package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import borecensus.screening.Screening;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class TestToRepeatTest {
  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(200, 0), 51);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  /** An engine of family F1 whose tests read these shares of what is expected. */
  private static EngineHistory engine(double... factors) {
    List<CompressionTest> tests = new ArrayList<>();
    for (int t = 0; t < factors.length; t++) {
      double km = 100_000 + 20_000.0 * t;
      String gauge = "G00" + t % 4;
      double factor = factors[t] * Math.exp(norms.gauge(gauge).offsetLog());
      double[] kpa =
          IntStream.rangeClosed(1, 6)
              .mapToDouble(c -> factor * norms.expectedKpa("F1", km, c))
              .toArray();
      tests.add(RandomFleet.test("E", t, km, gauge, kpa));
    }
    return new EngineHistory("V", "E", "F1", "S1", true, tests);
  }

  private static EngineHistory withLastDoubted(EngineHistory engine, Doubt... doubts) {
    List<CompressionTest> tests = new ArrayList<>(engine.tests());
    int last = tests.size() - 1;
    tests.set(last, tests.get(last).withDoubts(List.of(doubts)));
    return engine.withTests(tests);
  }

  private static Optional<TestToRepeat> repeat(EngineHistory engine) {
    return TestToRepeat.of(
        engine, Screening.assess(engine, norms), norms.family("F1").orElseThrow());
  }

  @Test
  void aLastTestThatAloneIsLowIsToBeRepeated() {
    TestToRepeat repeat = repeat(engine(1, 1, 1, 1, 0.85)).orElseThrow();
    assertEquals(
        "All cylinders read 15 % lower than expected of a healthy engine, and no earlier test of"
            + " this engine did.",
        repeat.because());
    assertTrue(repeat.nextStep().contains("repeat the test"), repeat.nextStep());
    assertEquals("G000", repeat.gaugeId());
  }

  @Test
  void anEarlierTestOutOfLineNeedsNoRepeatSinceLaterOnesHaveTold() {
    assertEquals(Optional.empty(), repeat(engine(1, 0.8, 1, 1, 1)));
    assertEquals(Optional.empty(), repeat(engine(1, 1, 1, 1, 1)));
  }

  @Test
  void aDoubtedLastTestSaysWhatWasWrongAndWhatToDo() {
    EngineHistory doubted =
        withLastDoubted(engine(1, 1, 0.8), Doubt.CLOSED_THROTTLE, Doubt.LOW_TOGETHER);
    TestToRepeat repeat = repeat(doubted).orElseThrow();
    assertEquals(
        "The throttle was closed; everything tested that day with this gauge read low together.",
        repeat.because());
    assertTrue(repeat.nextStep().startsWith("Repeat the test with the throttle held wide open."));
  }

  @Test
  void anEngineWithoutAnyTestHasNothingToRepeat() {
    assertEquals(
        Optional.empty(), repeat(new EngineHistory("V", "E", "F1", "S1", true, List.of())));
  }

  @Test
  void anEngineWithOneDoubtedTestOnlyIsToBeTestedAgain() {
    assertTrue(repeat(withLastDoubted(engine(1), Doubt.TOO_FEW_STROKES)).isPresent());
  }
}

package borecensus.screening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Cause;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.Reason;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Engines whose cylinder 2 is low, before and after somebody looked. */
class InspectedScreeningTest {
  private static RandomFleet fleet;
  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    fleet = new RandomFleet(FleetPlan.of(300, 0.05), 61);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  /** Cylinder 2 reads these shares of what is expected, the others all of it. */
  private static EngineHistory engine(double... shares) {
    List<CompressionTest> tests = new ArrayList<>();
    for (int t = 0; t < shares.length; t++) {
      double km = 100_000 + 20_000.0 * t;
      double share = shares[t];
      double gauge = Math.exp(norms.gauge("G000").offsetLog());
      double[] kpa =
          IntStream.rangeClosed(1, 6)
              .mapToDouble(c -> (c == 2 ? share : 1) * gauge * norms.expectedKpa("F1", km, c))
              .toArray();
      tests.add(RandomFleet.test("E", t, km, "G000", kpa));
    }
    return new EngineHistory("V", "E", "F1", "S1", true, tests);
  }

  private static EngineHistory inspectedAfter(
      int tests, EngineHistory engine, FindingResult result, Cause cause) {
    LocalDate day = engine.tests().get(tests - 1).testedAt().toLocalDate();
    return engine.withFindings(List.of(new Finding("V", day, result, cause, List.of())));
  }

  private static double probability(EngineHistory engine) {
    return Screening.assess(engine, norms).faultProbability();
  }

  @Test
  void aConfirmedFaultIsCertainUntilALaterTest() {
    EngineHistory mild = engine(0.96, 0.96);
    assertTrue(probability(mild) < 0.5);
    assertEquals(
        1, probability(inspectedAfter(2, mild, FindingResult.CONFIRMED, Cause.VALVE)), 1e-9);
    assertEquals(
        probability(mild),
        probability(inspectedAfter(1, mild, FindingResult.CONFIRMED, Cause.VALVE)),
        1e-12);
  }

  @Test
  void anEngineFoundSoundIsNotMarkedByTheTestsBefore() {
    EngineHistory low = engine(0.8, 0.8);
    assertTrue(probability(low) > 0.99);
    EngineHistory cleared = inspectedAfter(2, low, FindingResult.NO_FAULT_FOUND, null);
    EngineAssessment assessment = Screening.assess(cleared, norms);
    assertEquals(0, assessment.faultProbability(), 1e-9);
    assertEquals(List.of(), assessment.verdict().reasons());
    // What was read stays on record.
    assertEquals(
        Screening.assess(low, norms).lastTest().spreadPct(), assessment.lastTest().spreadPct());
  }

  @Test
  void aConfirmedFaultOfTheMeasurementClearsTheEngine() {
    EngineHistory low = engine(0.8, 0.8);
    assertEquals(
        0, probability(inspectedAfter(2, low, FindingResult.CONFIRMED, Cause.MEASUREMENT)), 1e-9);
  }

  @Test
  void theSameLowReadingAfterTheInspectionDoesNotMarkItAgainAndALowerOneDoes() {
    EngineHistory same =
        inspectedAfter(2, engine(0.8, 0.8, 0.8), FindingResult.NO_FAULT_FOUND, null);
    EngineHistory worse =
        inspectedAfter(2, engine(0.8, 0.8, 0.64), FindingResult.NO_FAULT_FOUND, null);
    assertTrue(probability(same) < 0.05, "same: " + probability(same));
    assertTrue(probability(worse) > 0.95, "worse: " + probability(worse));
    assertEquals(Reason.LOW_CYLINDER, Screening.assess(worse, norms).verdict().main().reason());
  }

  @Test
  void anEngineThatReadsNormallyAfterTheInspectionIsNoHighOne() {
    EngineHistory normal =
        inspectedAfter(2, engine(0.8, 0.8, 1), FindingResult.NO_FAULT_FOUND, Cause.MEASUREMENT);
    assertTrue(probability(normal) < 0.05);
  }

  @Test
  void anInconclusiveInspectionChangesNothing() {
    EngineHistory low = engine(0.9, 0.9);
    assertEquals(
        probability(low),
        probability(inspectedAfter(2, low, FindingResult.INCONCLUSIVE, null)),
        1e-15);
  }

  /** Known states enter the estimate of how common faults are (Dempster, Laird and Rubin 1977). */
  @Test
  void confirmedFaultsRaiseAndClearedEnginesLowerTheShareOfFaults() {
    double before = norms.shares().fleetPrevalence();
    double raised = learnedWith(FindingResult.CONFIRMED).shares().fleetPrevalence();
    double lowered = learnedWith(FindingResult.NO_FAULT_FOUND).shares().fleetPrevalence();
    assertTrue(raised > before + 0.02, raised + " after " + before);
    assertTrue(lowered < before, lowered + " after " + before);
  }

  /** The first thirty engines of the fleet inspected after their last test. */
  private static FleetNorms learnedWith(FindingResult result) {
    List<EngineHistory> inspected = new ArrayList<>();
    for (EngineHistory history : fleet.histories) {
      boolean opened = inspected.size() < 30;
      inspected.add(
          opened ? inspectedAfter(history.tests().size(), history, result, null) : history);
    }
    return NormEstimator.estimate(inspected, fleet.families, fleet.gauges, Priors.load());
  }
}

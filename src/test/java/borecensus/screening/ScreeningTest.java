package borecensus.screening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks;
import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.Hypothesis;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class ScreeningTest {
  private static RandomFleet fleet;
  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    fleet = new RandomFleet(FleetPlan.of(600, 0.05), 21);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  /** Readings of one engine of family F1 or F3, each test exactly as expected times a factor. */
  private static EngineHistory engine(String familyId, double[][] factors) {
    List<CompressionTest> tests =
        IntStream.range(0, factors.length)
            .mapToObj(t -> test(familyId, t, factors[t], norms))
            .toList();
    return new EngineHistory("V", "E", familyId, "S1", true, tests);
  }

  private static CompressionTest test(
      String familyId, int number, double[] factors, FleetNorms from) {
    double km = 100_000 + 20_000.0 * number;
    String gauge = "G00" + number % 4;
    double offset = Math.exp(from.gauge(gauge).offsetLog());
    double[] kpa =
        IntStream.range(0, factors.length)
            .mapToDouble(c -> factors[c] * offset * from.expectedKpa(familyId, km, c + 1))
            .toArray();
    return RandomFleet.test("E", number, km, gauge, kpa);
  }

  private static double[] all(int cylinders, double factor) {
    double[] factors = new double[cylinders];
    Arrays.fill(factors, factor);
    return factors;
  }

  private static double[] with(double[] factors, double factor, int... cylinders) {
    double[] changed = factors.clone();
    for (int c : cylinders) {
      changed[c - 1] = factor;
    }
    return changed;
  }

  @Test
  void anEngineThatReadsAsExpectedIsHealthy() {
    EngineAssessment a =
        Screening.assess(engine("F1", new double[][] {all(6, 1), all(6, 1), all(6, 1)}), norms);
    assertEquals(Judgement.JUDGED, a.judgement());
    assertTrue(a.faultProbability() < 0.01, "p = " + a.faultProbability());
    assertEquals(List.of(), a.verdict().reasons());
    assertEquals(List.of(), a.verdict().suspectCylinders());
    assertEquals(0, a.lastTest().levelPct(), 1e-9);
    assertEquals(0, a.trend().z(), 1e-9);
    assertEquals(3, a.testsUsed());
    assertEquals(140_000, a.lastTest().usage());
  }

  @Test
  void aDeadCylinderIsFoundAndNamed() {
    EngineAssessment a =
        Screening.assess(engine("F1", new double[][] {with(all(6, 1), 0, 4)}), norms);
    assertTrue(a.faultProbability() > 0.999);
    assertEquals(Reason.LOW_CYLINDER, a.verdict().reasons().get(0));
    assertEquals(List.of(4), a.verdict().suspectCylinders());
    assertEquals(4, a.lastTest().lowestCylinder());
    assertEquals(100, a.lastTest().spreadPct(), 1e-9);
    assertTrue(a.verdict().severityPct() > 50);
  }

  @Test
  void aCylinderThatGrowsWorseIsFallingAndOneThatIsLowAtOnceIsLow() {
    double[] sound = all(6, 1);
    double[] worse = with(sound, 0.9, 2);
    double[] worst = with(sound, 0.8, 2);
    EngineAssessment falling =
        Screening.assess(engine("F1", new double[][] {sound, worse, worst}), norms);
    EngineAssessment dropped =
        Screening.assess(engine("F1", new double[][] {sound, sound, worst}), norms);
    EngineAssessment always =
        Screening.assess(engine("F1", new double[][] {worst, worst, worst}), norms);
    assertEquals(Reason.FALLING_CYLINDER, falling.verdict().reasons().get(0));
    assertEquals(Reason.LOW_CYLINDER, dropped.verdict().reasons().get(0));
    assertEquals(Reason.LOW_CYLINDER, always.verdict().reasons().get(0));
    assertEquals(List.of(2), falling.verdict().suspectCylinders());
    assertEquals(List.of(2), dropped.verdict().suspectCylinders());
    assertEquals(List.of(2), always.verdict().suspectCylinders());
  }

  @Test
  void neighboursInABankAreAPairAndNeighboursInNumberAreNot() {
    double[] pair = with(all(8, 1), 0.85, 3, 5);
    EngineAssessment a = Screening.assess(engine("F3", new double[][] {pair, pair}), norms);
    assertEquals(Reason.LOW_ADJACENT_PAIR, a.verdict().reasons().get(0));
    assertEquals(List.of(3, 5), a.verdict().suspectCylinders());
    double[] strangers = with(all(8, 1), 0.85, 4, 5);
    EngineAssessment b =
        Screening.assess(engine("F3", new double[][] {strangers, strangers}), norms);
    double asPair = b.verdict().probabilities().get(Hypothesis.LOW_ADJACENT_PAIR);
    assertTrue(asPair < 0.5, "a pair with p = " + asPair);
  }

  @Test
  void aLowBankAndALowEngineAreToldApart() {
    double[] bank = with(all(8, 1), 0.85, 2, 4, 6, 8);
    EngineAssessment a = Screening.assess(engine("F3", new double[][] {bank, bank}), norms);
    assertEquals(Reason.LOW_BANK, a.verdict().reasons().get(0));
    assertEquals(List.of(2, 4, 6, 8), a.verdict().suspectCylinders());
    double[] low = all(8, 0.82);
    EngineAssessment b = Screening.assess(engine("F3", new double[][] {low, low, low}), norms);
    assertEquals(Reason.LOW_OVERALL, b.verdict().reasons().get(0));
    assertEquals(List.of(), b.verdict().suspectCylinders());
    assertEquals(-18, b.lastTest().levelPct(), 1e-6);
  }

  @Test
  void oneTestOutOfLineIsDoubtedAndNotMarked() {
    double[] sound = all(6, 1);
    EngineAssessment a =
        Screening.assess(
            engine("F1", new double[][] {sound, sound, all(6, 0.85), sound, sound}), norms);
    assertTrue(a.faultProbability() < 0.2, "p = " + a.faultProbability());
    assertEquals(List.of(Reason.DOUBTFUL_MEASUREMENT), a.verdict().reasons());
  }

  @Test
  void aLastTestOutOfLineInALongHistoryIsToBeRepeatedAndNamesNoFault() {
    double[] sound = all(6, 1);
    for (double factor : new double[] {0.93, 0.88, 0.8, 0.7}) {
      EngineAssessment a =
          Screening.assess(
              engine("F1", new double[][] {sound, sound, sound, sound, all(6, factor)}), norms);
      assertEquals(List.of(Reason.DOUBTFUL_MEASUREMENT), a.verdict().reasons(), "x " + factor);
      assertEquals(0, a.verdict().testsSinceDoubted());
      assertEquals(List.of(), a.verdict().suspectCylinders());
    }
  }

  @Test
  void aSecondLowTestConfirmsTheFirst() {
    double[] sound = all(6, 1);
    double[] low = all(6, 0.85);
    EngineAssessment a =
        Screening.assess(engine("F1", new double[][] {sound, sound, sound, low, low}), norms);
    assertTrue(a.faultProbability() > 0.9, "p = " + a.faultProbability());
    assertEquals(Reason.LOW_OVERALL, a.verdict().reasons().get(0));
    assertEquals(-1, a.verdict().testsSinceDoubted());
  }

  @Test
  void aLowCylinderInTheLastTestIsNoMatterOfLevelAlone() {
    double[] sound = all(6, 1);
    EngineAssessment a =
        Screening.assess(
            engine("F1", new double[][] {sound, sound, sound, sound, with(sound, 0.8, 2)}), norms);
    assertEquals(Reason.LOW_CYLINDER, a.verdict().reasons().get(0));
    assertEquals(-1, a.verdict().testsSinceDoubted());
  }

  @Test
  void reversingTheNumbersWithinABankReversesTheSuspects() {
    double[] low = with(all(6, 1), 0.85, 1, 2);
    double[] mirrored = with(all(6, 1), 0.85, 5, 6);
    FleetNorms flat = withoutPositions();
    EngineAssessment a = Screening.assess(flatEngine(low, flat), flat);
    EngineAssessment b = Screening.assess(flatEngine(mirrored, flat), flat);
    assertEquals(List.of(1, 2), a.verdict().suspectCylinders());
    assertEquals(List.of(5, 6), b.verdict().suspectCylinders());
    assertEquals(a.faultProbability(), b.faultProbability(), 1e-12);
    assertEquals(a.verdict().reasons(), b.verdict().reasons());
  }

  private static EngineHistory flatEngine(double[] factors, FleetNorms from) {
    return new EngineHistory("V", "E", "F1", "S1", true, List.of(test("F1", 0, factors, from)));
  }

  /** Norms learned from mirrored copies too, so that all positions are alike by symmetry. */
  private static FleetNorms withoutPositions() {
    List<EngineHistory> both =
        fleet.histories.stream()
            .filter(h -> h.familyId().equals("F1"))
            .flatMap(h -> List.of(h, mirrored(h)).stream())
            .toList();
    return NormEstimator.estimate(both, fleet.families, fleet.gauges, Priors.load());
  }

  private static EngineHistory mirrored(EngineHistory h) {
    List<CompressionTest> tests =
        IntStream.range(0, h.tests().size())
            .mapToObj(
                t -> {
                  CompressionTest test = h.tests().get(t);
                  double[] kpa = test.referenceKpa();
                  double[] back = new double[kpa.length];
                  for (int c = 0; c < kpa.length; c++) {
                    back[c] = kpa[kpa.length - 1 - c];
                  }
                  return RandomFleet.test(
                      h.engineId() + "M", t, test.distanceKm(), test.gaugeId(), back);
                })
            .toList();
    return new EngineHistory(
        h.vehicleId() + "M", h.engineId() + "M", h.familyId(), h.homeSiteId(), true, tests);
  }

  @Test
  void aFamilyOfFourIsJudgedByAWideLevelAndSaysSo() {
    FleetPlan plan =
        FleetPlan.of(200, 0)
            .withFamilies(
                List.of(
                    new FleetPlan.FamilyPlan("BIG", 6, "", 100, 0.02, 0),
                    new FleetPlan.FamilyPlan("TINY", 4, "", 4, 0.02, 0)));
    RandomFleet small = new RandomFleet(plan, 3);
    FleetNorms learned =
        NormEstimator.estimate(small.histories, small.families, small.gauges, Priors.load());
    EngineHistory tiny =
        small.histories.stream().filter(h -> h.familyId().equals("TINY")).findFirst().orElseThrow();
    EngineAssessment a = Screening.assess(tiny, learned);
    assertEquals(Judgement.JUDGED_SMALL_FAMILY, a.judgement());
    assertTrue(a.faultProbability() < 0.2, "p = " + a.faultProbability());
    FamilyNorm four = learned.family("TINY").orElseThrow();
    FamilyNorm hundred = learned.family("BIG").orElseThrow();
    assertTrue(four.meanStandardError(1) > 3 * hundred.meanStandardError(1));
    assertEquals(1250, learned.expectedKpa("TINY", 100_000, 1), 100);
  }

  @Test
  void aDeadCylinderIsFoundInAFamilyOfTwoAndInOneSeenForTheFirstTime() {
    for (int engines : new int[] {1, 2}) {
      FleetPlan plan =
          FleetPlan.of(100, 0)
              .withFamilies(
                  List.of(
                      new FleetPlan.FamilyPlan("BIG", 6, "", 80, 0.02, 0),
                      new FleetPlan.FamilyPlan("TINY", 6, "", engines, 0.02, 0)));
      RandomFleet small = new RandomFleet(plan, 4);
      int last = small.histories.size() - 1;
      EngineHistory sound = small.histories.get(last);
      EngineHistory dead = sound.withTests(sound.tests().stream().map(t -> deadIn(t, 3)).toList());
      small.histories.set(last, dead);
      FleetNorms learned =
          NormEstimator.estimate(small.histories, small.families, small.gauges, Priors.load());
      EngineAssessment a = Screening.assess(dead, learned);
      assertEquals(Judgement.JUDGED_SMALL_FAMILY, a.judgement());
      assertTrue(a.faultProbability() > 0.99, engines + ": p = " + a.faultProbability());
      assertEquals(List.of(3), a.verdict().suspectCylinders());
    }
  }

  private static CompressionTest deadIn(CompressionTest t, int cylinder) {
    double[] kpa = t.referenceKpa();
    kpa[cylinder - 1] = 0;
    return RandomFleet.test(
        t.engineId(), (int) t.rowNumber() - 1, t.distanceKm(), t.gaugeId(), kpa);
  }

  @Test
  void anEngineFittedLaterIsJudgedThoughNoOtherOfItsFamilyWasMeasured() {
    RandomFleet alone = new RandomFleet(FleetPlan.of(100, 0), 5);
    alone.histories.removeIf(h -> h.familyId().equals("F4"));
    double[] kpa = {1250, 1240, 1260, 800, 1250, 1245};
    EngineHistory fitted =
        new EngineHistory(
            "V", "E", "F4", "S1", false, List.of(RandomFleet.test("E", 0, 50_000, "G000", kpa)));
    alone.histories.add(fitted);
    FleetNorms learned =
        NormEstimator.estimate(alone.histories, alone.families, alone.gauges, Priors.load());
    EngineAssessment a = Screening.assess(fitted, learned);
    assertEquals(Judgement.JUDGED_SMALL_FAMILY, a.judgement());
    assertEquals(List.of(4), a.verdict().suspectCylinders());
  }

  @Test
  void enginesWithoutBelievedTestsAreToldApart() {
    EngineAssessment never =
        Screening.assess(new EngineHistory("V", "E", "F1", "S1", true, List.of()), norms);
    assertEquals(Judgement.NEVER_TESTED, never.judgement());
    assertNull(never.lastTestedOn());
    EngineHistory doubted =
        new EngineHistory(
            "V", "E", "F1", "S1", true, List.of(doubtful(test("F1", 0, all(6, 1), norms))));
    EngineAssessment only = Screening.assess(doubted, norms);
    assertEquals(Judgement.ONLY_DOUBTFUL_TESTS, only.judgement());
    assertEquals(List.of(Reason.DOUBTFUL_MEASUREMENT), only.verdict().reasons());
    assertEquals(norms.shares().prevalence("F1"), only.faultProbability());
  }

  private static CompressionTest doubtful(CompressionTest t) {
    return new CompressionTest(
        t.testId(),
        t.engineId(),
        t.testedAt(),
        t.distanceKm(),
        t.engineHours(),
        t.siteId(),
        t.gaugeId(),
        t.kind(),
        t.ambientHpa(),
        t.ambientSource(),
        t.gaugeKpa(),
        t.referenceKpa(),
        t.firstReferenceKpa(),
        t.engineTempC(),
        t.crankingRpm(),
        List.of(Doubt.CLOSED_THROTTLE),
        t.sourceFile(),
        t.rowNumber());
  }

  @Test
  void theMakersLimitIsAReasonOfItsOwn() {
    Family f = fleet.families.get("F1");
    Family strict =
        new Family(
            f.familyId(),
            f.fuel(),
            6,
            Banks.inLine(6),
            Double.NaN,
            Double.NaN,
            1300,
            Double.NaN,
            f.wetTest());
    SortedMap<String, Family> families = new TreeMap<>(Map.of("F1", strict));
    FleetNorms learned =
        NormEstimator.estimate(fleet.histories, families, fleet.gauges, Priors.load());
    EngineAssessment a =
        Screening.assess(engine("F1", new double[][] {all(6, 1), all(6, 1)}), learned);
    assertEquals(List.of(Reason.BELOW_MAKER_LIMIT), a.verdict().reasons());
    assertTrue(a.faultProbability() < 0.05);
  }

  @Test
  void aCylinderNotReadIsNoLowCylinder() {
    double[] gap = with(all(6, 1), Double.NaN, 3);
    EngineAssessment a = Screening.assess(engine("F1", new double[][] {all(6, 1), gap}), norms);
    assertTrue(a.faultProbability() < 0.02, "p = " + a.faultProbability());
    CylinderDeviation third =
        CylinderDeviation.of(test("F1", 1, gap, norms), engine("F1", new double[][] {gap}), norms)
            .get(2);
    assertTrue(Double.isNaN(third.z()));
    assertTrue(third.expectedKpa() > 1000);
  }

  @Test
  void anEngineFittedLaterIsJudgedThoughItsDistanceIsUnknown() {
    EngineHistory own = engine("F1", new double[][] {all(6, 0.9), all(6, 0.9)});
    EngineHistory fitted = new EngineHistory("V", "E", "F1", "S1", false, own.tests());
    double sure = Screening.assess(own, norms).lastTest().levelZ();
    double unsure = Screening.assess(fitted, norms).lastTest().levelZ();
    assertTrue(Math.abs(unsure) < Math.abs(sure), unsure + " against " + sure);
    assertEquals(Judgement.JUDGED, Screening.assess(fitted, norms).judgement());
  }

  private static double[] oneLow(int cylinder, double factor) {
    double[] factors = all(norms.family("F1").orElseThrow().family().cylinders(), 1);
    factors[cylinder - 1] = factor;
    return factors;
  }

  @Test
  void twoReadingsInEachOthersPlaceAreDoubtedAndNotExchanged() {
    EngineHistory history =
        engine(
            "F1", new double[][] {oneLow(2, 0.8), oneLow(2, 0.8), oneLow(3, 0.8), oneLow(2, 0.8)});
    EngineHistory doubted = TransposedCylinders.doubt(history, norms);
    List<List<Doubt>> doubts = doubted.tests().stream().map(CompressionTest::doubts).toList();
    assertEquals(
        List.of(List.of(), List.of(), List.of(Doubt.CYLINDERS_TRANSPOSED), List.of()), doubts);
    assertEquals(
        Arrays.toString(history.tests().get(2).referenceKpa()),
        Arrays.toString(doubted.tests().get(2).referenceKpa()));
  }

  @Test
  void aCylinderThatFallsForTheFirstTimeIsNoTransposition() {
    EngineHistory history =
        engine("F1", new double[][] {oneLow(2, 1), oneLow(2, 1), oneLow(2, 1), oneLow(3, 0.8)});
    assertEquals(history, TransposedCylinders.doubt(history, norms));
  }

  @Test
  void twoTestsAreTooFewToTellATransposition() {
    EngineHistory history = engine("F1", new double[][] {oneLow(2, 0.8), oneLow(3, 0.8)});
    assertEquals(history, TransposedCylinders.doubt(history, norms));
  }

  @Test
  void altitudeOfTheTestDoesNotChangeTheVerdict() {
    EngineHistory sea = engine("F1", new double[][] {all(6, 1), with(all(6, 1), 0.88, 5)});
    List<CompressionTest> high = sea.tests().stream().map(ScreeningTest::atAltitude).toList();
    EngineHistory hill = new EngineHistory("V", "E", "F1", "S1", true, high);
    EngineAssessment a = Screening.assess(sea, norms);
    EngineAssessment b = Screening.assess(hill, norms);
    assertEquals(a.lastTest().levelPct(), b.lastTest().levelPct());
    assertEquals(a.lastTest().spreadPct(), b.lastTest().spreadPct());
    assertEquals(a.verdict().reasons(), b.verdict().reasons());
    assertEquals(a.verdict().suspectCylinders(), b.verdict().suspectCylinders());
    // Only the dial's step weighs a little more on a lower reading.
    assertEquals(a.faultProbability(), b.faultProbability(), 0.01);
  }

  private static CompressionTest atAltitude(CompressionTest t) {
    double[] thin = Arrays.stream(t.gaugeKpa()).map(k -> 0.8 * k).toArray();
    return new CompressionTest(
        t.testId(),
        t.engineId(),
        t.testedAt(),
        t.distanceKm(),
        t.engineHours(),
        t.siteId(),
        t.gaugeId(),
        t.kind(),
        0.8 * t.ambientHpa(),
        t.ambientSource(),
        thin,
        t.referenceKpa(),
        t.firstReferenceKpa(),
        t.engineTempC(),
        t.crankingRpm(),
        t.doubts(),
        t.sourceFile(),
        t.rowNumber());
  }

  @Test
  void anEngineFamilyWithoutOdometersIsJudgedByHours() {
    List<EngineHistory> byHours =
        fleet.histories.stream()
            .filter(h -> h.familyId().equals("F1"))
            .map(h -> inHours(h))
            .toList();
    FleetNorms learned =
        NormEstimator.estimate(byHours, fleet.families, fleet.gauges, Priors.load());
    EngineHistory engine =
        byHours.stream().filter(h -> h.tests().size() == 4).findFirst().orElseThrow();
    EngineAssessment a = Screening.assess(engine, learned);
    double hours = engine.tests().get(3).engineHours();
    assertEquals(hours, a.lastTest().usage());
    // Hours were made from kilometres at 40 km/h, so the curve is the same in model units.
    EngineHistory byKm =
        fleet.histories.stream()
            .filter(h -> h.engineId().equals(engine.engineId()))
            .findFirst()
            .orElseThrow();
    FleetNorms inKm =
        NormEstimator.estimate(
            fleet.histories.stream().filter(h -> h.familyId().equals("F1")).toList(),
            fleet.families,
            fleet.gauges,
            Priors.load());
    EngineAssessment b = Screening.assess(byKm, inKm);
    assertEquals(b.faultProbability(), a.faultProbability(), 1e-9);
    // Per 1,000 h is per 40,000 km.
    assertEquals(0.4 * b.trend().pct(), a.trend().pct(), 1e-9);
  }

  private static EngineHistory inHours(EngineHistory h) {
    List<CompressionTest> tests =
        h.tests().stream()
            .map(
                t ->
                    new CompressionTest(
                        t.testId(),
                        t.engineId(),
                        t.testedAt(),
                        Double.NaN,
                        t.distanceKm() / 40,
                        t.siteId(),
                        t.gaugeId(),
                        t.kind(),
                        t.ambientHpa(),
                        t.ambientSource(),
                        t.gaugeKpa(),
                        t.referenceKpa(),
                        t.firstReferenceKpa(),
                        t.engineTempC(),
                        t.crankingRpm(),
                        t.doubts(),
                        t.sourceFile(),
                        t.rowNumber()))
            .toList();
    return new EngineHistory(
        h.vehicleId(), h.engineId(), h.familyId(), h.homeSiteId(), true, tests);
  }
}

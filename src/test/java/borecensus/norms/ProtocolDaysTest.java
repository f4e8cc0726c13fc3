package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** Fleets drawn from the model, whose engines are tested some two dozen on a day. */
class ProtocolDaysTest {
  private static final int ENGINES_PER_DAY = 24;

  /** Four gauges, so that about six engines meet each gauge on each day. */
  private static RandomFleet fleet(long seed, FleetPlan.Noise noise) {
    FleetPlan plan = FleetPlan.of(240, 0.03).withNoise(noise);
    RandomFleet fleet = new RandomFleet(plan, seed);
    for (int e = 0; e < fleet.histories.size(); e++) {
      int group = e / ENGINES_PER_DAY;
      EngineHistory history = fleet.histories.get(e);
      fleet.histories.set(
          e,
          history.withTests(
              history.tests().stream()
                  .map(t -> changed(t, t.testedAt().plusDays(group), 1))
                  .toList()));
    }
    return fleet;
  }

  private static CompressionTest changed(CompressionTest t, LocalDateTime at, double factor) {
    double[] kpa = Arrays.stream(t.referenceKpa()).map(k -> factor * k).toArray();
    return new CompressionTest(
        t.testId(),
        t.engineId(),
        at,
        t.distanceKm(),
        t.engineHours(),
        t.siteId(),
        t.gaugeId(),
        t.kind(),
        t.ambientHpa(),
        t.ambientSource(),
        kpa,
        kpa,
        t.firstReferenceKpa(),
        t.engineTempC(),
        t.crankingRpm(),
        t.doubts(),
        t.sourceFile(),
        t.rowNumber());
  }

  /** The tests of these days read so much more or less, for at most so many engines. */
  private static List<EngineHistory> shifted(
      List<EngineHistory> histories, TestDay day, double factor, int mostEngines) {
    List<EngineHistory> shifted = new ArrayList<>();
    int left = mostEngines;
    for (EngineHistory h : histories) {
      boolean met = h.tests().stream().anyMatch(t -> TestDay.of(t).equals(day));
      shifted.add(met && left-- > 0 ? shifted(h, day, factor) : h);
    }
    return shifted;
  }

  private static EngineHistory shifted(EngineHistory h, TestDay day, double factor) {
    return h.withTests(
        h.tests().stream()
            .map(t -> TestDay.of(t).equals(day) ? changed(t, t.testedAt(), factor) : t)
            .toList());
  }

  /** A day on which at least this many engines met one gauge, at their n-th test. */
  private static TestDay day(RandomFleet fleet, int test, int engines) {
    return fleet.histories.stream()
        .filter(h -> h.tests().size() > test)
        .map(h -> TestDay.of(h.tests().get(test)))
        .filter(d -> enginesOn(fleet.histories, d) >= engines)
        .sorted()
        .findFirst()
        .orElseThrow();
  }

  private static long enginesOn(List<EngineHistory> histories, TestDay day) {
    return histories.stream()
        .filter(h -> h.tests().stream().anyMatch(t -> TestDay.of(t).equals(day)))
        .count();
  }

  private static FleetNorms learn(RandomFleet fleet, List<EngineHistory> histories) {
    return NormEstimator.estimate(histories, fleet.families, fleet.gauges, Priors.load());
  }

  private static ProtocolDays days(RandomFleet fleet, List<EngineHistory> histories) {
    return ProtocolDays.learn(histories, learn(fleet, histories));
  }

  @Test
  void aDayWithATiredBatteryIsFoundAndItsTestsAreDoubted() {
    for (int seed = 1; seed <= 3; seed++) {
      RandomFleet fleet = fleet(seed, FleetPlan.Noise.NORMAL);
      TestDay bad = day(fleet, 1, 4);
      List<EngineHistory> tired = shifted(fleet.histories, bad, 0.88, 1000);
      ProtocolDays found = days(fleet, tired);
      assertEquals(Set.of(bad), found.doubts().keySet(), "seed " + seed);
      assertEquals(Doubt.LOW_TOGETHER, found.doubts().get(bad));
      for (EngineHistory history : tired) {
        for (CompressionTest test : found.apply(history).tests()) {
          assertEquals(!TestDay.of(test).equals(bad), test.trusted());
        }
      }
    }
  }

  @Test
  void anEngineThatWasTestedOnABadDayOnlyLosesItsTestAndIsNotMarked() {
    RandomFleet fleet = fleet(4, FleetPlan.Noise.NORMAL);
    TestDay bad = day(fleet, 0, 5);
    List<EngineHistory> tired = shifted(fleet.histories, bad, 0.88, 1000);
    ProtocolDays found = days(fleet, tired);
    List<EngineHistory> doubted = tired.stream().map(found::apply).toList();
    FleetNorms better = learn(fleet, doubted);
    int met = 0;
    for (EngineHistory h : doubted) {
      boolean sound = !fleet.faults.containsKey(h.engineId());
      boolean onBadDay = h.tests().stream().anyMatch(t -> !t.trusted());
      if (onBadDay && sound && !h.trustedTests().isEmpty()) {
        FamilyNorm norm = better.family(h.familyId()).orElseThrow();
        double p =
            FaultPosterior.of(HealthyModel.of(h, norm, better), norm, better).faultProbability();
        assertTrue(p < 0.5, h.engineId() + " has p = " + p);
        met++;
      }
    }
    assertTrue(met >= 3, met + " engines");
  }

  @Test
  void aDayThatReadsHighIsFoundToo() {
    RandomFleet fleet = fleet(5, FleetPlan.Noise.NORMAL);
    TestDay bad = day(fleet, 1, 4);
    ProtocolDays found = days(fleet, shifted(fleet.histories, bad, 1.12, 1000));
    assertEquals(Set.of(bad), found.doubts().keySet());
    assertEquals(Doubt.HIGH_TOGETHER, found.doubts().get(bad));
  }

  @Test
  void aFleetWithoutSuchDaysHasNoneDoubtedThoughItsNoiseHasHeavyTails() {
    for (FleetPlan.Noise noise : FleetPlan.Noise.values()) {
      for (int seed = 10; seed < 13; seed++) {
        RandomFleet fleet = fleet(seed, noise);
        Set<TestDay> all = new TreeSet<>();
        fleet.histories.forEach(h -> h.tests().forEach(t -> all.add(TestDay.of(t))));
        assertTrue(all.size() > 100, all.size() + " days");
        assertTrue(days(fleet, fleet.histories).isEmpty(), noise + " seed " + seed);
      }
    }
  }

  @Test
  void aQuarterOfFaultyEnginesAmongThoseOfADayIsNotDoubtedAway() {
    RandomFleet fleet = fleet(6, FleetPlan.Noise.NORMAL);
    List<EngineHistory> oneGauge = new ArrayList<>();
    String gauge = fleet.gauges.firstKey();
    double own = fleet.gaugeOffsets.get(gauge);
    int group = 0;
    for (EngineHistory h : fleet.histories.subList(0, 12)) {
      List<CompressionTest> tests = new ArrayList<>();
      for (CompressionTest t : h.tests()) {
        double factor = Math.exp(own - fleet.gaugeOffsets.get(t.gaugeId()));
        double[] kpa = Arrays.stream(t.referenceKpa()).map(k -> factor * k).toArray();
        CompressionTest there =
            RandomFleet.test(h.engineId(), tests.size(), t.distanceKm(), gauge, kpa);
        tests.add(changed(there, there.testedAt().minusDays(30), group < 3 ? 0.85 : 1));
      }
      oneGauge.add(h.withTests(tests));
      group++;
    }
    List<EngineHistory> all = new ArrayList<>(oneGauge);
    all.addAll(fleet.histories.subList(12, fleet.histories.size()));
    TestDay day = TestDay.of(oneGauge.get(0).tests().get(0));
    assertEquals(12, enginesOn(all, day));
    assertTrue(days(fleet, all).isEmpty());
  }

  @Test
  void twoEnginesOffTogetherAreTooFew() {
    RandomFleet fleet = fleet(7, FleetPlan.Noise.NORMAL);
    TestDay day = day(fleet, 1, 5);
    assertTrue(days(fleet, shifted(fleet.histories, day, 0.88, 2)).isEmpty());
  }

  @Test
  void theOrderOfTheSampleDoesNotMatterAndNothingIsLearnedFromNothing() {
    RandomFleet fleet = fleet(8, FleetPlan.Noise.NORMAL);
    TestDay bad = day(fleet, 0, 4);
    List<EngineHistory> tired = shifted(fleet.histories, bad, 0.88, 1000);
    FleetNorms norms = learn(fleet, tired);
    List<EngineHistory> reversed = new ArrayList<>(tired);
    Collections.reverse(reversed);
    assertEquals(ProtocolDays.learn(tired, norms), ProtocolDays.learn(reversed, norms));
    assertTrue(ProtocolDays.learn(List.of(), norms).isEmpty());
  }
}

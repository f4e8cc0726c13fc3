package borecensus.screening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Oracle;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import borecensus.statistics.FalseShareCounts;
import borecensus.statistics.FalseShareTable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Whole fleets with planted faults: what is found, missed and falsely suspected. */
class FleetScreeningTest {

  private static FleetNorms learn(RandomFleet fleet) {
    return NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  private static double[] probabilities(RandomFleet fleet, FleetNorms norms) {
    return fleet.histories.stream()
        .mapToDouble(h -> Screening.assess(h, norms).faultProbability())
        .toArray();
  }

  private static boolean[] truth(RandomFleet fleet) {
    boolean[] truth = new boolean[fleet.histories.size()];
    for (int i = 0; i < truth.length; i++) {
      truth[i] = fleet.faults.containsKey(fleet.histories.get(i).engineId());
    }
    return truth;
  }

  @Test
  void aCleanFleetOfAThousandEnginesHasAtMostOneSuspect() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(1000, 0), 31);
    double[] p = probabilities(fleet, learn(fleet));
    assertTrue(Arrays.stream(p).filter(q -> q > 0.9).count() <= 1);
    assertTrue(Arrays.stream(p).sum() < 3, "sum " + Arrays.stream(p).sum());
  }

  @Test
  void plantedFaultsRankAlmostAsWellAsWithTheTrueParametersKnown() {
    FleetPlan plan = FleetPlan.of(1000, 0.05);
    RandomFleet fleet = new RandomFleet(plan, 32);
    FleetNorms norms = learn(fleet);
    double[] p = probabilities(fleet, norms);
    double found = RandomFleet.averagePrecision(p, truth(fleet));
    double best =
        RandomFleet.averagePrecision(
            probabilities(fleet, Oracle.of(fleet, plan, norms)), truth(fleet));
    assertTrue(found > 0.9, "average precision " + found);
    assertTrue(found > 0.97 * best, found + " against " + best);
    assertEquals(1, Arrays.stream(p).sum() / fleet.faults.size(), 0.25);
  }

  @Test
  void aQuarterOfFaultyEnginesIsFoundAndNotTakenForTheNorm() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(600, 0.25), 33);
    double[] p = probabilities(fleet, learn(fleet));
    assertTrue(RandomFleet.averagePrecision(p, truth(fleet)) > 0.9);
    assertEquals(1, Arrays.stream(p).sum() / fleet.faults.size(), 0.25);
  }

  @Test
  void outliersOfHealthyTestsAreNotTakenForFaults() {
    FleetPlan plan = FleetPlan.of(800, 0.05).withNoise(FleetPlan.Noise.HEAVY_TAILED);
    RandomFleet fleet = new RandomFleet(plan, 34);
    double[] p = probabilities(fleet, learn(fleet));
    boolean[] truth = truth(fleet);
    int sure = 0;
    int wrong = 0;
    for (int i = 0; i < p.length; i++) {
      sure += p[i] > 0.9 ? 1 : 0;
      wrong += p[i] > 0.9 && !truth[i] ? 1 : 0;
    }
    // Probabilities above 0.9 may be wrong in at most a tenth of some 30 cases, give or take two.
    assertTrue(wrong <= 5, wrong + " of " + sure);
    assertTrue(RandomFleet.averagePrecision(p, truth) > 0.85);
  }

  /** Families of one to four engines and nothing else, each with a level of its own. */
  private static FleetPlan tinyFamilies(int families, double faultShare) {
    List<FleetPlan.FamilyPlan> tiny = new ArrayList<>();
    for (int f = 0; f < families; f++) {
      String id = String.format(Locale.ROOT, "T%03d", f);
      tiny.add(new FleetPlan.FamilyPlan(id, 4 + 2 * (f % 3), "", 1 + f % 4, 0.02, 0));
    }
    return FleetPlan.of(750, faultShare).withFamilies(tiny);
  }

  @Test
  void probabilitiesInThreeHundredTinyFamiliesMeanWhatTheySay() {
    double sum = 0;
    int planted = 0;
    int marked = 0;
    int wrong = 0;
    for (int seed = 41; seed <= 42; seed++) {
      RandomFleet fleet = new RandomFleet(tinyFamilies(300, 0.08), seed);
      double[] p = probabilities(fleet, learn(fleet));
      boolean[] truth = truth(fleet);
      FalseShareCounts counts = new FalseShareCounts();
      Arrays.stream(p).forEach(counts::add);
      FalseShareTable table = FalseShareTable.of(counts);
      for (int i = 0; i < p.length; i++) {
        boolean mark = table.qValue(p[i]) <= 0.1;
        sum += p[i];
        planted += truth[i] ? 1 : 0;
        marked += mark ? 1 : 0;
        wrong += mark && !truth[i] ? 1 : 0;
      }
    }
    String found = marked + " marked, " + wrong + " wrong, " + planted + " planted, sum " + sum;
    // Of 80 to 100 marks a tenth may be wrong, and three standard deviations of that more.
    assertTrue(marked > planted / 2, found);
    assertTrue(wrong <= 0.1 * marked + 3 * Math.sqrt(0.09 * marked), found);
    assertEquals(1, sum / planted, 0.25, found);
  }

  @Test
  void aCleanFleetOfTinyFamiliesHasHardlyASuspect() {
    RandomFleet fleet = new RandomFleet(tinyFamilies(300, 0), 43);
    double[] p = probabilities(fleet, learn(fleet));
    assertTrue(Arrays.stream(p).filter(q -> q > 0.9).count() <= 1);
    assertTrue(Arrays.stream(p).sum() < 4, "sum " + Arrays.stream(p).sum());
  }

  @Test
  void oddHistoriesAreJudgedWithoutHarmToTheRest() {
    FleetPlan plan =
        FleetPlan.of(200, 0)
            .withFamilies(
                List.of(
                    new FleetPlan.FamilyPlan("F1", 6, "", 100, 0.02, 0),
                    new FleetPlan.FamilyPlan("ONE", 1, "", 30, 0.02, 0)));
    RandomFleet fleet = new RandomFleet(plan, 35);
    double nan = Double.NaN;
    fleet.histories.add(odd("DEAD", true, 100_000, "G000", 0, 0, 0, 0, 0, 0));
    fleet.histories.add(odd("LONE", true, 100_000, "G001", nan, nan, 1250, nan, nan, nan));
    fleet.histories.add(odd("NO_KM", true, nan, "G001", 1250, 1250, 1250, 1250, 1250, 1250));
    fleet.histories.add(odd("NEW_GAUGE", true, 9e5, "?", 1250, 1250, 1250, 1250, 1250, 1250));
    fleet.histories.add(odd("FITTED", false, 1e5, "G002", 1250, 1250, 1250, 1250, 1250, 1250));
    FleetNorms norms = learn(fleet);
    for (EngineHistory history : fleet.histories) {
      EngineAssessment a = Screening.assess(history, norms);
      double p = a.faultProbability();
      assertEquals(Judgement.JUDGED, a.judgement());
      assertTrue(p >= 0 && p <= 1, history.engineId() + " has p = " + p);
      assertEquals(history.engineId().equals("DEAD"), p > 0.5, history.engineId() + " p = " + p);
    }
  }

  private static EngineHistory odd(
      String engineId, boolean original, double km, String gaugeId, double... kpa) {
    CompressionTest test = RandomFleet.test(engineId, 0, km, gaugeId, kpa);
    return new EngineHistory("V" + engineId, engineId, "F1", "S1", original, List.of(test));
  }
}

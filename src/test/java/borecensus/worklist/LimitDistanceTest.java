package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import borecensus.worklist.LimitDistance.Limit;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The true wear of family F1 is 2 % per 100,000 km; F2 has no limit of its maker. */
class LimitDistanceTest {
  private static FleetNorms norms;

  @BeforeAll
  static void learn() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(300, 0), 52);
    SortedMap<String, Family> families = new TreeMap<>(fleet.families);
    families.computeIfPresent("F1", (id, family) -> withMinimum(family, 1000));
    norms = NormEstimator.estimate(fleet.histories, families, fleet.gauges, Priors.load());
  }

  private static Family withMinimum(Family family, double minKpa) {
    return new Family(
        family.familyId(),
        family.fuel(),
        family.cylinders(),
        family.banks(),
        family.compressionRatio(),
        family.nominalKpa(),
        minKpa,
        family.maxSpreadPct(),
        family.wetTest());
  }

  /** Cylinder 2 reads these shares of what is expected, the others all of it. */
  private static EngineHistory engine(String familyId, double... shares) {
    List<CompressionTest> tests = new ArrayList<>();
    for (int t = 0; t < shares.length; t++) {
      double km = 100_000 + 20_000.0 * t;
      double share = shares[t];
      double gauge = Math.exp(norms.gauge("G000").offsetLog());
      int cylinders = norms.family(familyId).orElseThrow().family().cylinders();
      double[] kpa =
          IntStream.rangeClosed(1, cylinders)
              .mapToDouble(c -> (c == 2 ? share : 1) * gauge * norms.expectedKpa(familyId, km, c))
              .toArray();
      tests.add(RandomFleet.test("E", t, km, "G000", kpa));
    }
    return new EngineHistory("V", "E", familyId, "S1", true, tests);
  }

  private static LimitDistance of(double probability, String familyId, double... shares) {
    return LimitDistance.of(
        engine(familyId, shares), probability, norms.family(familyId).orElseThrow(), norms);
  }

  @Test
  void aCylinderBelowTheMakersMinimumHasNoDistanceLeft() {
    LimitDistance distance = of(1, "F1", 0.7, 0.7);
    assertEquals(Limit.MAKER_MINIMUM, distance.limit());
    assertEquals(0, distance.usage());
    assertEquals(0, distance.lowerUsage());
  }

  /**
   * 4 % in 20,000 km, and 7 to 8 % left to 1000 kPa: some 34,000 km by hand. The slope is drawn to
   * zero by its noise, so the distance is a little longer.
   */
  @Test
  void aFallingCylinderIsCarriedOnAtItsPace() {
    LimitDistance distance = of(1, "F1", 1, 0.96, 0.92, 0.88);
    double nowKpa = 0.88 * norms.expectedKpa("F1", 160_000, 2);
    double perKm = (Math.log(0.88) - Math.log(1)) / 60_000 - 0.02 / 100_000;
    double byHand = Math.log(1000 / nowKpa) / perKm;
    assertEquals(byHand, distance.usage(), 0.25 * byHand);
    assertTrue(distance.lowerUsage() < distance.usage());
    assertTrue(distance.usage() < distance.upperUsage());
  }

  @Test
  void aSteadyEngineNearsItsLimitOnlyAtTheFamilysOwnPace() {
    LimitDistance steady = of(0.01, "F1", 1, 1, 1, 1);
    LimitDistance falling = of(1, "F1", 1, 0.96, 0.92, 0.88);
    assertTrue(steady.usage() > 5 * falling.usage() || Double.isNaN(steady.usage()));
    assertTrue(steady.lowerUsage() > falling.lowerUsage());
  }

  @Test
  void whereTheMakerStatesNoMinimumTheFamilysFirstCentileIsTheLimit() {
    LimitDistance distance = of(0.5, "F2", 1, 1, 1);
    assertEquals(Limit.FAMILY_P01, distance.limit());
    assertTrue(Double.isNaN(distance.usage()) || distance.usage() > 0);
  }

  @Test
  void anEngineOfUnknownUsageHasNoDistance() {
    CompressionTest known = engine("F1", 1).tests().get(0);
    CompressionTest unknown = RandomFleet.test("E", 0, Double.NaN, "G000", known.gaugeKpa());
    EngineHistory engine = new EngineHistory("V", "E", "F1", "S1", true, List.of(unknown));
    LimitDistance distance = LimitDistance.of(engine, 0.5, norms.family("F1").orElseThrow(), norms);
    assertTrue(Double.isNaN(distance.usage()) && Double.isNaN(distance.lowerUsage()));
  }
}

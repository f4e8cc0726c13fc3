package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.EngineHistory;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.IntToDoubleFunction;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

/**
 * Fleets of known truth at ten sites from sea level to 2,700 m, an engine tested where it lives, by
 * one of its site's two gauges.
 */
class PressureCheckTest {
  private static final int SITES = 10;

  /** How the pressure of a test came about and what its sheet says. */
  private record Air(
      double exponent, IntToDoubleFunction elevationM, IntToDoubleFunction registeredM) {
    static Air honest(double exponent) {
      return new Air(exponent, s -> 300.0 * s, s -> 300.0 * s);
    }
  }

  private static PressureCheck check(Air air, long seed) {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(800, 0.05), seed);
    List<EngineHistory> histories = placed(fleet, air, seed);
    return PressureCheck.of(histories, norms(fleet, histories));
  }

  private static FleetNorms norms(RandomFleet fleet, List<EngineHistory> histories) {
    SortedMap<String, Gauge> gauges = new TreeMap<>();
    histories.stream()
        .flatMap(h -> h.tests().stream())
        .forEach(
            t -> gauges.put(t.gaugeId(), new Gauge(t.gaugeId(), PressureUnit.KPA, 5, Double.NaN)));
    return NormEstimator.estimate(histories, fleet.families, gauges, Priors.load());
  }

  private static List<EngineHistory> placed(RandomFleet fleet, Air air, long seed) {
    Well19937c random = new Well19937c(seed);
    double[] offsets = new double[2 * SITES];
    for (int g = 0; g < offsets.length; g++) {
      offsets[g] = 0.02 * random.nextGaussian();
    }
    return EditedTest.all(
        fleet.histories,
        test -> {
          int site = Math.floorMod(test.original.engineId().hashCode() * 31, SITES);
          int gauge = 2 * site + random.nextInt(2);
          double weather = Math.exp(0.006 * random.nextGaussian());
          double truth = standardHpa(air.elevationM().applyAsDouble(site)) * weather;
          test.siteId = siteId(site);
          test.gaugeId = "P" + gauge;
          test.ambientHpa = standardHpa(air.registeredM().applyAsDouble(site)) * weather;
          test.shiftLog =
              offsets[gauge]
                  - fleet.gaugeOffsets.get(test.original.gaugeId())
                  + air.exponent() * Math.log(truth / 1013.25)
                  - Math.log(test.ambientHpa / 1013.25);
        });
  }

  private static String siteId(int number) {
    return String.format(Locale.ROOT, "SITE-%d", number);
  }

  /** ICAO standard atmosphere below 11 km. */
  private static double standardHpa(double elevationM) {
    return 1013.25 * Math.pow(1 - 2.25577e-5 * elevationM, 5.25588);
  }

  @Test
  void aFleetThatFollowsPressureShowsTheExponentOneWithAnHonestError() {
    double squares = 0;
    for (long seed = 51; seed <= 54; seed++) {
      PressureCheck check = check(Air.honest(1), seed);
      assertEquals(PressureCheck.Status.AGREES, check.status());
      assertEquals(1, check.exponent(), 3 * check.standardError());
      assertTrue(check.standardError() < 0.1);
      assertTrue(Math.abs(check.worstSite().orElseThrow().z()) < 4);
      squares += Math.pow((check.exponent() - 1) / check.standardError(), 2);
    }
    // The mean of four squared standard errors is below 3.3 in 99 % of cases.
    assertTrue(squares / 4 < 3.3, "mean square " + squares / 4);
  }

  @Test
  void aFleetWhoseReadingsWereCorrectedByDensityIsRejected() {
    PressureCheck check = check(Air.honest(1 - 1 / 5.25588), 55);
    assertEquals(PressureCheck.Status.REJECTED, check.status());
    assertEquals(1 - 1 / 5.25588, check.exponent(), 3 * check.standardError());
  }

  @Test
  void theSiteWhoseElevationIsWrongByEightHundredMetresIsNamed() {
    for (int wrong : new int[] {0, 4, 9}) {
      Air air = new Air(1, s -> 300.0 * s + (s == wrong ? 800 : 0), s -> 300.0 * s);
      SiteResidual worst = check(air, 56 + wrong).worstSite().orElseThrow();
      assertEquals(siteId(wrong), worst.siteId());
      // 800 m are 9.2 to 9.4 % of the pressure.
      assertEquals(-9.3, worst.residualPct(), 3 * worst.standardErrorPct());
      assertTrue(worst.z() < -3, "z " + worst.z());
    }
  }

  @Test
  void seaLevelPressureWrittenAtTheOnlyHighSiteIsFound() {
    Air air = new Air(1, s -> s == 3 ? 1500 : 50, s -> s == 3 ? 0 : 50);
    SiteResidual worst = check(air, 70).worstSite().orElseThrow();
    assertEquals(siteId(3), worst.siteId());
    assertEquals(-16.5, worst.residualPct(), 3 * worst.standardErrorPct());
  }

  @Test
  void aFleetAtOneHeightCannotTellTheExponent() {
    PressureCheck check = check(new Air(1, s -> 100, s -> 100), 71);
    assertEquals(PressureCheck.Status.NOT_ESTIMABLE, check.status());
    assertTrue(Double.isNaN(check.exponent()));
    assertEquals(SITES, check.sites().size());
  }

  @Test
  void aFleetWithoutTestsOrWithOneSiteCannotTellTheExponent() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(100, 0), 72);
    PressureCheck oneSite = PressureCheck.of(fleet.histories, norms(fleet, fleet.histories));
    assertEquals(PressureCheck.Status.NOT_ESTIMABLE, oneSite.status());
    assertTrue(oneSite.tests() > 100 && oneSite.sites().isEmpty());
    PressureCheck empty = PressureCheck.of(List.of(), norms(fleet, List.of()));
    assertEquals(0, empty.tests());
    assertEquals(PressureCheck.Status.NOT_ESTIMABLE, empty.status());
  }

  @Test
  void theOrderOfTheHistoriesChangesNothing() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(150, 0.05), 73);
    List<EngineHistory> histories = placed(fleet, Air.honest(1), 73);
    FleetNorms norms = norms(fleet, histories);
    List<EngineHistory> shuffled = new ArrayList<>(histories);
    Collections.shuffle(shuffled, new Random(1));
    assertEquals(PressureCheck.of(histories, norms), PressureCheck.of(shuffled, norms));
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Random;
import java.util.TreeMap;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

/** Evidence drawn from a law of faults, of which the law is to be found again. */
class FaultLawEstimatorTest {
  private static final FuelPriors PRIORS = Priors.load().of(Fuel.DIESEL);
  private static final FaultSizes BELIEVED = FaultSizes.believed(PRIORS);
  private static final double NOISE = 0.03;

  private static FaultLaw start() {
    return new FaultLaw(
        new HypothesisShares(new EnumMap<>(PRIORS.shares()), new TreeMap<>()), BELIEVED);
  }

  private static FaultLaw learned(List<FaultEvidence> engines) {
    FaultLaw law = start();
    for (int round = 0; round < 4; round++) {
      law = new FaultLawEstimator(engines, PRIORS).estimate(law);
    }
    return law;
  }

  private static SeverityGrid cylinderLoss(FaultLaw law) {
    return law.sizes().byKind().get(SizeKind.CYLINDER_LOSS);
  }

  /** Engines of which a share has lost pressure in the one cylinder that is looked at. */
  private static List<FaultEvidence> engines(int count, double share, SeverityGrid sizes) {
    Well19937c random = new Well19937c(5);
    List<FaultEvidence> engines = new ArrayList<>();
    for (int e = 0; e < count; e++) {
      boolean faulty = random.nextDouble() < share;
      double shift = faulty ? quantile(sizes, random.nextDouble()) : 0;
      engines.add(engine("F" + e % 3, shift + NOISE * random.nextGaussian()));
    }
    return engines;
  }

  private static FaultEvidence engine(String familyId, double reading) {
    double information = 1 / (NOISE * NOISE);
    List<RatioSum> sums = new ArrayList<>();
    for (Hypothesis hypothesis : Hypothesis.values()) {
      RatioTerms terms = RatioTerms.ofThread();
      terms.begin(BELIEVED.of(Hypothesis.LOW_CYLINDER).shifts());
      if (hypothesis == Hypothesis.LOW_CYLINDER) {
        terms.add(0, reading * information, information);
        terms.endSet(new int[] {0});
      }
      sums.add(terms.sum(BELIEVED.weights()[hypothesis.ordinal()], 1));
    }
    return new FaultEvidence(familyId, 2, sums, null, KnownState.UNKNOWN);
  }

  /** The signed shift that so large a share of faults stays below in size, between grid points. */
  private static double quantile(SeverityGrid law, double share) {
    double[] weights = law.weights();
    double[] shifts = law.shifts();
    double sum = 0;
    int i = 0;
    while (i < weights.length - 1 && sum + weights[i] < share) {
      sum += weights[i++];
    }
    double part = Math.min(1, (share - sum) / weights[i]) - 0.5;
    return shifts[i] * Math.pow(shifts[1] / shifts[0], part);
  }

  private static double lossPct(SeverityGrid law, double share) {
    return -100 * Math.expm1(quantile(law, share));
  }

  /** With 150 faults the median is known to about 6 % of itself, a quartile to about 8 %. */
  @Test
  void aPlantedLawOfSizesIsFoundWhicheverItIs() {
    for (FaultSize planted :
        List.of(
            new FaultSize(8, 0.3),
            new FaultSize(14, 0.7),
            new FaultSize(25, 0.3),
            new FaultSize(25, 1.0),
            new FaultSize(40, 0.5))) {
      SeverityGrid truth = SeverityGrid.of(planted, -1);
      SeverityGrid found = cylinderLoss(learned(engines(1500, 0.1, truth)));
      for (double share : new double[] {0.25, 0.5, 0.75}) {
        double expected = lossPct(truth, share);
        assertEquals(expected, lossPct(found, share), 0.25 * expected, planted + " at " + share);
      }
    }
  }

  @Test
  void howManyFaultsThereAreIsFoundThoughTheirSizesAreNotAsBelieved() {
    SeverityGrid truth = SeverityGrid.of(new FaultSize(30, 0.4), -1);
    FaultLaw found = learned(engines(1500, 0.1, truth));
    // 150 faults: two standard errors of the share are 16 % of it.
    assertEquals(0.1, found.shares().fleet().get(Hypothesis.LOW_CYLINDER), 0.016);
  }

  @Test
  void aSoundFleetLeavesTheSizesAsBelieved() {
    FaultLaw found = learned(engines(1500, 0, cylinderLoss(start())));
    assertEquals(14, lossPct(cylinderLoss(found), 0.5), 3);
    double tenth = lossPct(cylinderLoss(start()), 0.1);
    assertEquals(tenth, lossPct(cylinderLoss(found), 0.1), 0.3 * tenth);
    assertTrue(found.shares().fleetPrevalence() < 0.02);
  }

  @Test
  void kindsWithoutFaultsKeepTheirBelievedSizes() {
    FaultLaw found = learned(engines(1500, 0.1, SeverityGrid.of(new FaultSize(40, 0.3), -1)));
    for (SizeKind kind : List.of(SizeKind.LEVEL_LOSS, SizeKind.CYLINDER_GAIN)) {
      double[] believed = BELIEVED.byKind().get(kind).weights();
      assertArrayEquals(believed, found.sizes().byKind().get(kind).weights(), 1e-6);
    }
  }

  @Test
  void aFamilyOfOneEngineHasNearlyTheFleetsPrevalence() {
    List<FaultEvidence> engines = engines(600, 0.1, cylinderLoss(start()));
    engines.add(engine("alone", -0.3));
    HypothesisShares shares = learned(engines).shares();
    double fleet = shares.fleetPrevalence();
    assertTrue(shares.prevalence("alone") > fleet);
    assertEquals(fleet, shares.prevalence("alone"), 1.0 / PRIORS.pseudoEngines().share());
  }

  @Test
  void theOrderOfTheEnginesChangesNothingButRounding() {
    List<FaultEvidence> engines = engines(400, 0.1, cylinderLoss(start()));
    double[] before = cylinderLoss(learned(engines)).weights();
    Collections.shuffle(engines, new Random(3));
    assertArrayEquals(before, cylinderLoss(learned(engines)).weights(), 1e-9);
  }
}

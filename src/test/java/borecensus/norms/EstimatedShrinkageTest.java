package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Whole fleets drawn from the model, many small families (see {@link RandomFleet}). */
class EstimatedShrinkageTest {
  /** Forty families of eight engines and three of sixty, wearing at these rates in turn. */
  private static FleetPlan plan(double... wear) {
    List<FleetPlan.FamilyPlan> families = new ArrayList<>();
    for (int f = 0; f < 43; f++) {
      int engines = f < 40 ? 8 : 60;
      String id = String.format(Locale.ROOT, "F%02d", f);
      families.add(new FleetPlan.FamilyPlan(id, 6, "", engines, wear[f % wear.length], 0));
    }
    return FleetPlan.of(500, 0.04).withFamilies(families);
  }

  private static double slope(FleetNorms norms, FleetPlan.FamilyPlan family) {
    MeanCurve curve = norms.families().get(family.familyId()).curve();
    return curve.at(2.5) - curve.at(0.5);
  }

  /** Root mean square error of the families' wear per unit, the small ones alone. */
  private static double wearError(FleetPlan plan, int seed) {
    FleetNorms norms = NormEstimatorTest.estimate(new RandomFleet(plan, seed));
    return Math.sqrt(
        plan.families().stream()
            .filter(f -> f.engines() == 8)
            .mapToDouble(f -> (slope(norms, f) / 2 + f.wear()))
            .map(e -> e * e)
            .average()
            .orElseThrow());
  }

  @Test
  void smallFamiliesOfAFleetThatWearsFastAreDrawnToTheFleetAndNotToTheBelief() {
    // Eight engines that differ by 2.2 % tell the slope to about 0.9 % a unit. The belief of
    // 1.5 +- 1.5 % alone would leave errors of 0.8 %, and shift all by 1 %.
    assertTrue(wearError(plan(0.05), 21) < 0.007, "error " + wearError(plan(0.05), 21));
  }

  @Test
  void familiesOfAFleetWhoseWearDiffersMuchKeepTheirOwn() {
    FleetPlan plan = plan(0, 0.08, 0.04);
    FleetNorms norms = NormEstimatorTest.estimate(new RandomFleet(plan, 22));
    for (FleetPlan.FamilyPlan family : plan.families()) {
      if (family.engines() == 60) {
        // Sixty engines: an eighth of 2.2 %, over a spread of usages of 0.7: 0.4 %; three.
        assertEquals(-family.wear(), slope(norms, family) / 2, 0.012, family.familyId());
      }
    }
    // Their own slope is known to 0.9 %; drawing them to one value would leave 3.3 %.
    assertTrue(wearError(plan, 22) < 0.014, "error " + wearError(plan, 22));
  }

  @Test
  void positionsAreDrawnToZeroAsFarAsTheFleetsPositionsAreAlike() {
    RandomFleet fleet = new RandomFleet(plan(0.02), 23);
    FleetNorms norms = NormEstimatorTest.estimate(fleet);
    double squares = 0;
    double stated = 0;
    int count = 0;
    for (FamilyNorm norm : norms.families().values()) {
      double[] truth = fleet.positions.get(norm.family().familyId());
      for (int c = 0; c < truth.length; c++) {
        squares += Math.pow(norm.position(c) - truth[c], 2);
        stated += norm.positionVariance();
        count++;
      }
    }
    // 215 free errors: their mean square has a standard error of 10 %; three, and faults.
    assertEquals(1, squares / stated, 0.4, "of " + Arrays.asList(squares, stated, count));
  }
}

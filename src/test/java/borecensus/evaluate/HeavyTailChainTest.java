package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.norms.VarianceComponents;
import java.util.List;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

/** The chain against plain Monte Carlo over the variances behind the noise, two readings each. */
class HeavyTailChainTest {
  private static final int DRAWS = 4_000;
  private static final int ENGINES = 8;

  @Test
  void the_chain_agrees_with_averaging_dense_densities_over_variances() {
    FleetPlan plan =
        FleetPlan.TYPICAL
            .withFaults(0.3, 0.3, FaultMix.ALL)
            .withSize(FamilySizes.MIXED, 1)
            .withLaws(SeverityLaw.UNIFORM, NoiseLaw.HEAVY, WearShape.SMOOTH);
    TrueFleet fleet = FleetGenerator.draw(plan, 800, 21);
    List<TrueEngine> twoCylinders =
        fleet.engines().stream()
            .filter(e -> fleet.familyOf(e).family().cylinders() == 2)
            .limit(ENGINES)
            .toList();

    assertEquals(ENGINES, twoCylinders.size());
    double largest = 0;
    for (TrueEngine engine : twoCylinders) {
      double expected = byMonteCarlo(engine, fleet);
      largest = Math.max(largest, expected);
      // The chain keeps 120 values, each at most 1: its error is a few hundredths.
      double byChain = HeavyTailChain.probability(engine, fleet, 1);
      assertEquals(expected, byChain, 0.08);
      assertEquals(byChain, HeavyTailChain.probability(engine, fleet, 1), 0);
    }
    assertTrue(largest > 0.5, "no engine with a probable fault among them: " + largest);
  }

  private static double byMonteCarlo(TrueEngine engine, TrueFleet fleet) {
    ReadingLaw usual = ReadingLaw.ofTruth(engine, fleet);
    TrueFamily family = fleet.familyOf(engine);
    VarianceComponents v = family.components();
    List<FaultCase> cases =
        FaultCase.all(family.family(), engine.usage(), fleet.plan(), FaultCase.Fineness.FULL);
    ChiSquaredDistribution chiSquare =
        new ChiSquaredDistribution(new Well19937c(3), NoiseLaw.DEGREES);
    double healthy = 0;
    double faulty = 0;
    for (int i = 0; i < DRAWS; i++) {
      double level = usual.levelCovariance()[0][0] - v.test() + 2 * v.test() / chiSquare.sample();
      double[] own = new double[2];
      for (int c = 0; c < 2; c++) {
        double fixed = usual.readingVariance()[0][c] - v.reading() + usual.cylinderVariance();
        own[c] = fixed + 2 * v.reading() / chiSquare.sample();
      }
      healthy += density(usual.residual()[0], 0, new int[0], level, own);
      for (FaultCase one : cases) {
        for (double shift : one.shifts()) {
          faulty +=
              Math.exp(one.logWeight())
                  / one.shifts().length
                  * density(
                      usual.residual()[0], shift * one.reach()[0], one.cylinders(), level, own);
        }
      }
    }
    double share = family.faultShare();
    return share * faulty / (share * faulty + (1 - share) * healthy);
  }

  /** Two normal values with a shared variance and one of their own each. */
  private static double density(
      double[] residual, double shift, int[] cylinders, double level, double[] own) {
    double[] z = residual.clone();
    for (int c : cylinders) {
      z[c] -= shift;
    }
    double a = level + own[0];
    double b = level + own[1];
    double determinant = a * b - level * level;
    double quadratic = (b * z[0] * z[0] - 2 * level * z[0] * z[1] + a * z[1] * z[1]) / determinant;
    return Math.exp(-quadratic / 2) / (2 * Math.PI * Math.sqrt(determinant));
  }
}

package borecensus.evaluate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.apache.commons.math3.distribution.MultivariateNormalDistribution;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

class FaultOddsTest {
  private static final double[][] RESIDUAL = {
    {0.02, -0.01, -0.06, 0.01}, {-0.01, 0.00, -0.09, 0.02}, {0.01, -0.02, -0.15, 0.00}
  };
  private static final double[][] LEVEL = {
    {9e-4, 6e-4, 6e-4}, {6e-4, 9e-4, 6e-4}, {6e-4, 6e-4, 11e-4}
  };
  private static final double[][] READING = {
    {1e-4, 1.2e-4, 2e-4, 1e-4}, {1e-4, 3e-4, 1e-4, 1e-4}, {2e-4, 1e-4, 1e-4, 5e-4}
  };
  private static final double CYLINDER = 1.5e-4;
  private static final ReadingLaw LAW = new ReadingLaw(RESIDUAL, LEVEL, CYLINDER, READING);

  /** Dense densities: Apache Commons Math 3.6.1, MultivariateNormalDistribution. */
  @Test
  void the_marginal_likelihood_ratio_is_that_of_the_dense_normal_distribution() {
    List<FaultCase> cases =
        List.of(
            new FaultCase(new int[] {2}, new double[] {0, 0.5, 1}, shifts(), Math.log(0.4)),
            new FaultCase(new int[] {1, 2}, new double[] {1, 1, 1}, shifts(), Math.log(0.35)),
            new FaultCase(
                new int[] {0, 1, 2, 3}, new double[] {0, 0, 1}, shifts(), Math.log(0.25)));

    double expected = 0;
    for (FaultCase one : cases) {
      for (double shift : one.shifts()) {
        double weight = Math.exp(one.logWeight()) / one.shifts().length;
        expected += weight * density(one, shift) / density(one, 0);
      }
    }

    double ratio = FaultOdds.of(new SolvedLaw(LAW), cases).logRatio();
    assertEquals(Math.log(expected), ratio, 1e-9 * Math.abs(ratio));
  }

  private static double[] shifts() {
    return new double[] {-0.05, -0.15};
  }

  private static double density(FaultCase one, double shift) {
    double[] values = new double[12];
    double[][] covariance = new double[12][12];
    for (int i = 0; i < 12; i++) {
      values[i] = RESIDUAL[i / 4][i % 4];
      for (int c : one.cylinders()) {
        values[i] -= c == i % 4 ? shift * one.reach()[i / 4] : 0;
      }
      for (int j = 0; j < 12; j++) {
        covariance[i][j] = LEVEL[i / 4][j / 4] + (i % 4 == j % 4 ? CYLINDER : 0);
      }
      covariance[i][i] += READING[i / 4][i % 4];
    }
    return new MultivariateNormalDistribution(new Well19937c(1), new double[12], covariance)
        .density(values);
  }

  @Test
  void the_cases_of_every_engine_have_weights_that_sum_to_one() {
    for (EvaluationScenario scenario : EvaluationScenario.values()) {
      TrueFleet fleet = FleetGenerator.draw(scenario.plan(), 60, 5);
      for (TrueEngine engine : fleet.engines()) {
        double sum =
            FaultCase.all(
                    fleet.familyOf(engine).family(),
                    engine.usage(),
                    scenario.plan(),
                    FaultCase.Fineness.QUICK)
                .stream()
                .mapToDouble(one -> Math.exp(one.logWeight()))
                .sum();
        assertEquals(1, sum, 1e-12, scenario.code() + " " + engine.history().engineId());
      }
    }
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.domain.Fuel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.MultivariateNormalDistribution;
import org.junit.jupiter.api.Test;

/** Likelihood ratios by templates against densities of dense multivariate normals. */
class FaultEvidenceTest {
  private static final FuelPriors PRIORS = Priors.load().of(Fuel.DIESEL);

  private static final Tails NO_TAILS = new Tails(1e-300, 1e-300, 1e-300, 1e-300);

  private static HealthyModel model(RandomFleet fleet, FleetNorms norms, int tests) {
    return fleet.histories.stream()
        .filter(h -> h.familyId().equals("F2") && h.tests().size() == tests)
        .findFirst()
        .map(h -> HealthyModel.of(h, norms.families().get("F2"), norms))
        .orElseThrow();
  }

  private static double[] flattened(HealthyModel model) {
    return Arrays.stream(model.residual()).flatMapToDouble(Arrays::stream).toArray();
  }

  private static double logDensity(double[] z, double[] mean, double[][] covariance) {
    return Math.log(new MultivariateNormalDistribution(mean, covariance).density(z));
  }

  @Test
  void ratiosOfEveryFaultEqualDenseDensityRatios() {
    RandomFleet fleet = new RandomFleet(FleetPlan.of(120, 0.1), 3);
    FleetNorms norms =
        NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load())
            .withTails(NO_TAILS);
    for (int tests : new int[] {1, 2, 3}) {
      HealthyModel model = model(fleet, norms, tests);
      FamilyNorm norm = norms.families().get("F2");
      FaultEvidence evidence = FaultEvidence.of(model, norm, norms);
      double[][] sizes = norms.sizes().weights();
      for (Hypothesis h : Hypothesis.values()) {
        double expected =
            h.mechanical() ? dense(h, model, norm, norms.sizes()) : denseDoubtful(model);
        double tolerance = 1e-9 * Math.max(1, Math.abs(expected));
        double found = evidence.sums().get(h.ordinal()).log(sizes[h.ordinal()]);
        assertEquals(expected, found, tolerance, h + " with " + tests + " tests");
      }
    }
  }

  private static double dense(Hypothesis h, HealthyModel model, FamilyNorm norm, FaultSizes law) {
    double[][] covariance =
        DenseCovariance.covariance(model, DenseCovariance.index(model.residual()));
    double[] z = flattened(model);
    double healthy = logDensity(z, new double[z.length], covariance);
    SeverityGrid sizes = law.of(h);
    List<int[]> sets = CylinderSets.of(h, norm.family());
    int cylinders = norm.family().cylinders();
    List<Double> terms = new ArrayList<>();
    for (OnsetProfiles.Profile profile : profiles(h, model.usage())) {
      for (int[] set : sets) {
        for (int i = 0; i < sizes.shifts().length; i++) {
          double[] mean = new double[z.length];
          for (int t = 0; t < model.tests(); t++) {
            for (int c : set) {
              mean[t * cylinders + c] = sizes.shifts()[i] * profile.reach()[t];
            }
          }
          terms.add(
              profile.logWeight()
                  + sizes.logWeights()[i]
                  - Math.log(sets.size())
                  + logDensity(z, mean, covariance)
                  - healthy);
        }
      }
    }
    return Math.log(terms.stream().mapToDouble(Math::exp).sum());
  }

  private static List<OnsetProfiles.Profile> profiles(Hypothesis h, double[] usage) {
    return switch (h) {
      case LOW_CYLINDER, LOW_OVERALL -> OnsetProfiles.steps(usage);
      case FALLING_CYLINDER, FALLING_LEVEL -> OnsetProfiles.ramps(usage);
      default -> OnsetProfiles.any(usage);
    };
  }

  /** A test that is off as a whole adds a variance to its block of the covariance. */
  private static double denseDoubtful(HealthyModel model) {
    double[][] covariance =
        DenseCovariance.covariance(model, DenseCovariance.index(model.residual()));
    double[] z = flattened(model);
    double healthy = logDensity(z, new double[z.length], covariance);
    double extra = PRIORS.doubtfulSdPct() * PRIORS.doubtfulSdPct() / 1e4;
    int cylinders = model.residual()[0].length;
    double sum = 0;
    for (int t = 0; t < model.tests(); t++) {
      double[][] wide = new double[z.length][];
      for (int i = 0; i < z.length; i++) {
        wide[i] = covariance[i].clone();
        for (int j = 0; j < z.length; j++) {
          wide[i][j] += i / cylinders == t && j / cylinders == t ? extra : 0;
        }
      }
      sum += Math.exp(logDensity(z, new double[z.length], wide) - healthy) / model.tests();
    }
    return Math.log(sum);
  }

  @Test
  void weightsOfEveryOnsetSumToOne() {
    double[] usage = {1, 1.5, 2.5, 2.6};
    for (List<OnsetProfiles.Profile> profiles :
        List.of(OnsetProfiles.steps(usage), OnsetProfiles.ramps(usage), OnsetProfiles.any(usage))) {
      double sum = profiles.stream().mapToDouble(p -> Math.exp(p.logWeight())).sum();
      assertEquals(1, sum, 1e-12);
    }
  }
}

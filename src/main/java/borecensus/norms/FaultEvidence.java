package borecensus.norms;

import borecensus.domain.Family;
import java.util.ArrayList;
import java.util.List;

/**
 * How much better each fault explains an engine's readings than health does, before asking how
 * common faults are.
 *
 * <p>For a fault that shifts the readings by d u, with z the residuals and W their inverse
 * covariance, the likelihood ratio is exp(d u'Wz - d^2/2 u'Wu); it is averaged over which
 * cylinders, onset and size with their prior weights (Kass and Raftery, 1995, J. Am. Stat. Assoc.
 * 90:773-795, eq. 2). For a test that is off as a whole by d, normal with variance v, the average
 * is closed: (1 + v u'Wu)^(-1/2) exp(v (u'Wz)^2 / (2 (1 + v u'Wu))).
 *
 * @param familyId the engine's family
 * @param tests how many tests were used
 * @param sums by {@link Hypothesis#ordinal}
 */
record FaultEvidence(String familyId, int tests, List<RatioSum> sums) {

  /** Weighs one engine with at least one test. */
  static FaultEvidence of(HealthyModel model, FamilyNorm norm, FuelPriors priors) {
    ReadingPrecision precision = ReadingPrecision.of(model);
    List<RatioSum> sums = new ArrayList<>();
    for (Hypothesis hypothesis : Hypothesis.values()) {
      sums.add(
          hypothesis.mechanical()
              ? mechanical(hypothesis, model, precision, norm.family(), priors)
              : doubtful(precision, norm.family(), priors));
    }
    return new FaultEvidence(norm.family().familyId(), model.tests(), sums);
  }

  double logRatio(Hypothesis hypothesis) {
    return sums.get(hypothesis.ordinal()).log();
  }

  private static RatioSum mechanical(
      Hypothesis hypothesis,
      HealthyModel model,
      ReadingPrecision precision,
      Family family,
      FuelPriors priors) {
    RatioSum sum = new RatioSum(family.cylinders());
    List<int[]> sets = CylinderSets.of(hypothesis, family);
    SeverityGrid sizes = SeverityGrid.of(priors.sizeOf(hypothesis), hypothesis.sign());
    List<OnsetProfiles.Profile> profiles = profiles(hypothesis, model.usage());
    for (int[] set : sets) {
      SetBlocks blocks = SetBlocks.of(precision, set);
      for (OnsetProfiles.Profile profile : profiles) {
        double logWeight = profile.logWeight() - Math.log(sets.size());
        addSizes(sum, logWeight, blocks.template(profile.reach()), sizes);
      }
    }
    return sum;
  }

  /** W z and W of a set of cylinders, summed over the set, by test. */
  private record SetBlocks(int[] cylinders, double[] weighted, double[][] precision) {
    static SetBlocks of(ReadingPrecision precision, int[] cylinders) {
      return new SetBlocks(
          cylinders, precision.weightedSums(cylinders), precision.precisionSums(cylinders));
    }

    Template template(double[] reach) {
      double score = 0;
      double information = 0;
      for (int t = 0; t < reach.length; t++) {
        if (reach[t] == 0) {
          continue;
        }
        score += reach[t] * weighted[t];
        for (int u = 0; u < reach.length; u++) {
          information += reach[t] * reach[u] * precision[t][u];
        }
      }
      return new Template(score, information, cylinders);
    }
  }

  /** One pattern of shifted readings: u'Wz, u'Wu, and the cylinders it strikes. */
  private record Template(double score, double information, int[] cylinders) {}

  private static void addSizes(
      RatioSum sum, double logWeight, Template template, SeverityGrid sizes) {
    for (int i = 0; i < sizes.shifts().length; i++) {
      double d = sizes.shifts()[i];
      double logRatio = d * template.score - d * d / 2 * template.information;
      sum.add(logWeight + sizes.logWeights()[i] + logRatio, d, template.cylinders);
    }
  }

  /** Faults of a pair, a bank or upward are not told apart by onset: half may be there at first. */
  private static List<OnsetProfiles.Profile> profiles(Hypothesis hypothesis, double[] usage) {
    return switch (hypothesis) {
      case LOW_CYLINDER, LOW_OVERALL -> OnsetProfiles.sinceFirst(usage);
      case FALLING_CYLINDER, FALLING_LEVEL -> OnsetProfiles.later(usage);
      default -> OnsetProfiles.any(usage);
    };
  }

  private static RatioSum doubtful(ReadingPrecision precision, Family family, FuelPriors priors) {
    RatioSum sum = new RatioSum(family.cylinders());
    double variance = priors.doubtfulSdPct() * priors.doubtfulSdPct() / 1e4;
    int tests = precision.tests();
    int[] all = CylinderSets.of(Hypothesis.DOUBTFUL_TEST, family).get(0);
    SetBlocks blocks = SetBlocks.of(precision, all);
    for (int t = 0; t < tests; t++) {
      double[] reach = new double[tests];
      reach[t] = 1;
      Template u = blocks.template(reach);
      double growth = 1 + variance * u.information;
      double logRatio = variance * u.score * u.score / (2 * growth) - Math.log(growth) / 2;
      sum.add(logRatio - Math.log(tests), variance * u.score / growth, new int[0]);
    }
    return sum;
  }
}

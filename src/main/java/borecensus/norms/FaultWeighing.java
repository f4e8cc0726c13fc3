package borecensus.norms;

import borecensus.domain.Family;
import java.util.ArrayList;
import java.util.List;

/**
 * Weighs every fault against health for one engine.
 *
 * <p>For a fault that shifts the readings by d u, with z the residuals and W their inverse
 * covariance, the likelihood ratio is exp(d u'Wz - d^2/2 u'Wu); it is averaged over which
 * cylinders, onset and size with their prior weights (Kass and Raftery, 1995, J. Am. Stat. Assoc.
 * 90:773-795, eq. 2). For a test that is off as a whole by d, normal with variance v, the average
 * is closed: (1 + v u'Wu)^(-1/2) exp(v (u'Wz)^2 / (2 (1 + v u'Wu))).
 */
final class FaultWeighing {
  private final HealthyModel model;
  private final Family family;
  private final double doubtfulSdPct;
  private final FaultSizes sizes;
  private final Tails tails;
  private final ReadingPrecision precision;
  private final TailRatios ratios;

  FaultWeighing(HealthyModel model, FamilyNorm norm, FleetNorms norms) {
    this.model = model;
    this.family = norm.family();
    this.doubtfulSdPct = norms.priors().of(family.fuel()).doubtfulSdPct();
    this.sizes = norms.sizes();
    this.tails = norms.tails();
    this.precision = ReadingPrecision.of(model);
    this.ratios = TailRatios.of(model, precision, norm.components());
  }

  FaultEvidence evidence() {
    List<RatioSum> sums = new ArrayList<>();
    for (Hypothesis hypothesis : Hypothesis.values()) {
      sums.add(hypothesis.mechanical() ? mechanical(hypothesis) : doubtful());
    }
    return new FaultEvidence(
        family.familyId(), model.tests(), sums, ratios, model.readings().known());
  }

  private RatioSum mechanical(Hypothesis hypothesis) {
    SeverityGrid law = sizes.of(hypothesis);
    RatioSum sum = new RatioSum(family.cylinders(), law.weights());
    List<int[]> sets = CylinderSets.of(hypothesis, family);
    List<OnsetProfiles.Profile> profiles = profiles(hypothesis);
    for (int[] set : sets) {
      SetBlocks blocks = SetBlocks.of(precision, set);
      double explained = ratios.explainedByHealth(set, tails);
      for (OnsetProfiles.Profile profile : profiles) {
        double logWeight = profile.logWeight() - Math.log(sets.size()) - explained;
        sum.add(logWeight, blocks.template(profile.reach()), law.shifts());
      }
    }
    return sum;
  }

  /** Faults of a pair, a bank or upward are not told apart by onset: half may be there at first. */
  private List<OnsetProfiles.Profile> profiles(Hypothesis hypothesis) {
    return switch (hypothesis) {
      case LOW_CYLINDER, LOW_OVERALL -> OnsetProfiles.steps(model.usage());
      case FALLING_CYLINDER, FALLING_LEVEL -> OnsetProfiles.ramps(model.usage());
      default -> OnsetProfiles.any(model.usage());
    };
  }

  private RatioSum doubtful() {
    RatioSum sum = new RatioSum(model.tests(), new double[] {1});
    double variance = doubtfulSdPct * doubtfulSdPct / 1e4;
    int[] all = CylinderSets.of(Hypothesis.DOUBTFUL_TEST, family).get(0);
    SetBlocks blocks = SetBlocks.of(precision, all);
    double explained = ratios.explainedByHealth(all, tails);
    for (int t = 0; t < model.tests(); t++) {
      double[] reach = new double[model.tests()];
      reach[t] = 1;
      Template u = blocks.template(reach);
      double logWeight = -Math.log(model.tests()) - explained;
      double logTerm = logWeight + u.logRatioOfNormalShift(variance);
      sum.add(new double[] {logTerm}, new int[] {t});
    }
    return sum;
  }
}

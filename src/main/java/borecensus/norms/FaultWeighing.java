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
  private final double[][] sizeWeights;
  private final ReadingPrecision precision;
  private final TailRatios ratios;
  private final TailRatios.Explained explained;
  private final List<OnsetProfiles.Profile> steps;
  private final List<OnsetProfiles.Profile> ramps;
  private final List<OnsetProfiles.Profile> either;

  /**
   * Prepares to weigh one engine.
   *
   * @param sizeWeights {@link FaultSizes#weights} of these norms
   */
  FaultWeighing(HealthyModel model, FamilyNorm norm, FleetNorms norms, double[][] sizeWeights) {
    this.model = model;
    this.family = norm.family();
    this.doubtfulSdPct = norms.priors().of(family.fuel()).doubtfulSdPct();
    this.sizes = norms.sizes();
    this.sizeWeights = sizeWeights;
    this.precision = ReadingPrecision.of(model);
    this.ratios = TailRatios.of(model, precision, norm.components());
    this.explained = ratios.explainedByHealth(norms.tails());
    this.steps = OnsetProfiles.steps(model.usage());
    this.ramps = OnsetProfiles.ramps(model.usage());
    this.either = OnsetProfiles.any(model.usage());
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
    double[] shifts = sizes.of(hypothesis).shifts();
    RatioSum sum = new RatioSum(family.cylinders(), sizeWeights[hypothesis.ordinal()]);
    List<int[]> sets = CylinderSets.of(hypothesis, family);
    List<OnsetProfiles.Profile> profiles = profiles(hypothesis);
    double logSets = Math.log(sets.size());
    double[][] weighed = null;
    double[] information = new double[profiles.size()];
    for (int[] set : sets) {
      SetBlocks blocks = SetBlocks.of(precision, set);
      // Sets of cylinders that are alike share one precision.
      if (blocks.precision() != weighed) {
        weighed = blocks.precision();
        for (int p = 0; p < information.length; p++) {
          information[p] = blocks.information(profiles.get(p).reach());
        }
      }
      double logWeight = -logSets - explained.of(set);
      for (int p = 0; p < information.length; p++) {
        OnsetProfiles.Profile profile = profiles.get(p);
        Template u = new Template(blocks.score(profile.reach()), information[p], set);
        sum.add(profile.logWeight() + logWeight, u, shifts);
      }
    }
    return sum;
  }

  /** Faults of a pair, a bank or upward are not told apart by onset: half may be there at first. */
  private List<OnsetProfiles.Profile> profiles(Hypothesis hypothesis) {
    return switch (hypothesis) {
      case LOW_CYLINDER, LOW_OVERALL -> steps;
      case FALLING_CYLINDER, FALLING_LEVEL -> ramps;
      default -> either;
    };
  }

  private RatioSum doubtful() {
    RatioSum sum = new RatioSum(model.tests(), sizeWeights[Hypothesis.DOUBTFUL_TEST.ordinal()]);
    double variance = doubtfulSdPct * doubtfulSdPct / 1e4;
    int[] all = CylinderSets.of(Hypothesis.DOUBTFUL_TEST, family).get(0);
    SetBlocks blocks = SetBlocks.of(precision, all);
    double logWeight = -Math.log(model.tests()) - explained.of(all);
    for (int t = 0; t < model.tests(); t++) {
      double logTerm = logWeight + blocks.ofTest(t).logRatioOfNormalShift(variance);
      sum.add(new double[] {logTerm}, new int[] {t});
    }
    return sum;
  }
}

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
  private final double[][] logSizeWeights;
  private final RatioSum.Law law;
  private final ReadingPrecision precision;
  private final TailRatios ratios;
  private final TailRatios.Explained explained;
  private final List<OnsetProfiles.Profile> steps;
  private final List<OnsetProfiles.Profile> ramps;

  /** Steps, then ramps; steps alone with a single test. */
  private final List<OnsetProfiles.Profile> either;

  /** Asked for by several faults. */
  private final List<int[]> singleSets;

  private final Template[][] singles;

  /** The precision that was last asked for information, by course. */
  private double[][] weighed;

  private final double[] information;

  /**
   * Prepares to weigh one engine.
   *
   * @param law what the evidence is for
   */
  FaultWeighing(HealthyModel model, FamilyNorm norm, FleetNorms norms, RatioSum.Law law) {
    this.model = model;
    this.family = norm.family();
    this.doubtfulSdPct = norms.priors().of(family.fuel()).doubtfulSdPct();
    this.sizes = norms.sizes();
    this.sizeWeights = sizes.weights();
    this.logSizeWeights = sizes.logWeights();
    this.law = law;
    this.precision = ReadingPrecision.of(model);
    this.ratios = TailRatios.of(model, precision, norm.components());
    this.explained = ratios.explainedByHealth(norms.tails());
    this.steps = OnsetProfiles.steps(model.usage());
    this.ramps = OnsetProfiles.ramps(model.usage());
    this.either = model.tests() == 1 ? steps : OnsetProfiles.either(steps, ramps);
    this.singleSets = CylinderSets.of(Hypothesis.LOW_CYLINDER, family);
    this.singles = new Template[family.cylinders()][];
    this.information = new double[either.size()];
  }

  FaultEvidence evidence() {
    Hypothesis[] hypotheses = Hypothesis.values();
    List<RatioSum> sums = new ArrayList<>(hypotheses.length);
    for (Hypothesis hypothesis : hypotheses) {
      sums.add(hypothesis.mechanical() ? mechanical(hypothesis) : doubtful());
    }
    return new FaultEvidence(
        family.familyId(), model.tests(), sums, ratios, model.readings().known());
  }

  private RatioSum mechanical(Hypothesis hypothesis) {
    double[] shifts = sizes.of(hypothesis).shifts();
    RatioSum sum = emptySum(family.cylinders(), hypothesis);
    List<int[]> sets = sets(hypothesis);
    List<OnsetProfiles.Profile> profiles = profiles(hypothesis);
    int first = profiles == ramps ? either.size() - ramps.size() : 0;
    double logSets = Math.log(sets.size());
    for (int[] set : sets) {
      Template[] templates = templates(set);
      double logWeight = -logSets - explained.of(set);
      for (int p = 0; p < profiles.size(); p++) {
        sum.add(profiles.get(p).logWeight() + logWeight, templates[first + p], shifts);
      }
    }
    return sum;
  }

  private RatioSum emptySum(int parts, Hypothesis hypothesis) {
    int h = hypothesis.ordinal();
    return new RatioSum(parts, sizeWeights[h], logSizeWeights[h], law);
  }

  private List<int[]> sets(Hypothesis hypothesis) {
    return switch (hypothesis) {
      case LOW_CYLINDER, FALLING_CYLINDER, HIGH_CYLINDER -> singleSets;
      default -> CylinderSets.of(hypothesis, family);
    };
  }

  /** Of every course of either kind; those of single cylinders are asked for by several faults. */
  private Template[] templates(int[] set) {
    if (set.length > 1) {
      return newTemplates(set);
    }
    int c = set[0];
    singles[c] = singles[c] == null ? newTemplates(set) : singles[c];
    return singles[c];
  }

  private Template[] newTemplates(int[] set) {
    SetBlocks blocks = SetBlocks.of(precision, set);
    // Sets of cylinders that are alike share one precision.
    if (blocks.precision() != weighed) {
      weighed = blocks.precision();
      for (int p = 0; p < information.length; p++) {
        information[p] = blocks.information(either.get(p).reach());
      }
    }
    Template[] templates = new Template[information.length];
    for (int p = 0; p < templates.length; p++) {
      templates[p] = new Template(blocks.score(either.get(p).reach()), information[p], set);
    }
    return templates;
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
    RatioSum sum = emptySum(model.tests(), Hypothesis.DOUBTFUL_TEST);
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

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

  /** Steps, then ramps; steps alone with a single test. */
  private final List<OnsetProfiles.Profile> either;

  /** Asked for by several faults. */
  private final List<int[]> singleSets;

  private final SetCourses[] singles;

  /** The precision that was last asked for information. */
  private double[][] weighed;

  /** Of it, by course; shared by sets of cylinders that are alike. */
  private double[] information;

  private final RatioTerms terms = RatioTerms.ofThread();

  /** Prepares to weigh one engine. */
  FaultWeighing(HealthyModel model, FamilyNorm norm, FleetNorms norms) {
    this.model = model;
    this.family = norm.family();
    this.doubtfulSdPct = norms.priors().of(family.fuel()).doubtfulSdPct();
    this.sizes = norms.sizes();
    this.sizeWeights = sizes.weights();
    this.precision = ReadingPrecision.of(model);
    this.ratios = TailRatios.of(model, precision, norm.components());
    this.explained = ratios.explainedByHealth(norms.tails());
    this.steps = OnsetProfiles.steps(model.usage());
    this.ramps = OnsetProfiles.ramps(model.usage());
    this.either = model.tests() == 1 ? steps : OnsetProfiles.either(steps, ramps);
    this.singleSets = CylinderSets.of(Hypothesis.LOW_CYLINDER, family);
    this.singles = new SetCourses[family.cylinders()];
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
    terms.begin(sizes.of(hypothesis).shifts());
    List<int[]> sets = sets(hypothesis);
    List<OnsetProfiles.Profile> profiles = profiles(hypothesis);
    int first = profiles == ramps ? either.size() - ramps.size() : 0;
    double logSets = Math.log(sets.size());
    for (int[] set : sets) {
      SetCourses courses = courses(set);
      double logWeight = -logSets - explained.of(set);
      for (int p = 0; p < profiles.size(); p++) {
        int course = first + p;
        terms.add(
            profiles.get(p).logWeight() + logWeight,
            courses.scores()[course],
            courses.information()[course]);
      }
      terms.endSet(set);
    }
    return sum(hypothesis, family.cylinders());
  }

  private RatioSum sum(Hypothesis hypothesis, int parts) {
    return terms.sum(sizeWeights[hypothesis.ordinal()], parts);
  }

  private List<int[]> sets(Hypothesis hypothesis) {
    return switch (hypothesis) {
      case LOW_CYLINDER, FALLING_CYLINDER, HIGH_CYLINDER -> singleSets;
      default -> CylinderSets.of(hypothesis, family);
    };
  }

  /**
   * A set of cylinders shifted in every course of either kind.
   *
   * @param scores u'Wz by course
   * @param information u'Wu likewise; shared, not copied
   */
  private record SetCourses(double[] scores, double[] information) {}

  /** Those of single cylinders are asked for by several faults. */
  private SetCourses courses(int[] set) {
    if (set.length > 1) {
      return newCourses(set);
    }
    int c = set[0];
    singles[c] = singles[c] == null ? newCourses(set) : singles[c];
    return singles[c];
  }

  private SetCourses newCourses(int[] set) {
    SetBlocks blocks = SetBlocks.of(precision, set);
    double[] scores = new double[either.size()];
    // Sets of cylinders that are alike share one precision.
    if (blocks.precision() != weighed) {
      weighed = blocks.precision();
      information = new double[scores.length];
      for (int p = 0; p < scores.length; p++) {
        information[p] = blocks.information(either.get(p).reach());
      }
    }
    for (int p = 0; p < scores.length; p++) {
      scores[p] = blocks.score(either.get(p).reach());
    }
    return new SetCourses(scores, information);
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
    terms.begin(new double[0]);
    double variance = doubtfulSdPct * doubtfulSdPct / 1e4;
    int[] all = CylinderSets.of(Hypothesis.DOUBTFUL_TEST, family).get(0);
    SetBlocks blocks = SetBlocks.of(precision, all);
    double logWeight = -Math.log(model.tests()) - explained.of(all);
    for (int t = 0; t < model.tests(); t++) {
      terms.addAveraged(logWeight + blocks.ofTest(t).logRatioOfNormalShift(variance));
      terms.endSet(new int[] {t});
    }
    return sum(Hypothesis.DOUBTFUL_TEST, model.tests());
  }
}

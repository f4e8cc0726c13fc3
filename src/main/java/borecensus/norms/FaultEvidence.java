package borecensus.norms;

import java.util.List;

/**
 * How much better each fault explains an engine's readings than health does, before asking how
 * common faults are. Health includes outliers ({@link Tails}).
 *
 * @param familyId the engine's family
 * @param tests how many tests were used
 * @param sums by {@link Hypothesis#ordinal}
 * @param tails what wide healthy variation explains
 * @param known what an inspection has told
 */
record FaultEvidence(
    String familyId, int tests, List<RatioSum> sums, TailRatios tails, KnownState known) {

  /** Weighs one engine with at least one test. */
  static FaultEvidence of(HealthyModel model, FamilyNorm norm, FleetNorms norms) {
    return new FaultWeighing(model, norm, norms).evidence();
  }
}

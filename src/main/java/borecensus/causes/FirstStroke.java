package borecensus.causes;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * The first stroke of low cylinders against the others of the same test. What a first stroke gives
 * depends on the engine, the gauge and the starter, so only the comparison within a test counts,
 * and a whole engine that is low has none.
 *
 * @param testedOn day of the test
 * @param firstShare first stroke of the cylinders asked for, over that of the others
 * @param peakShare the same of the peak readings
 */
public record FirstStroke(LocalDate testedOn, double firstShare, double peakShare) {
  /** A cylinder below this share of the others is low (common practice, no source). */
  static final double LOW_SHARE = 0.9;

  /** Catching up by this factor is building (common practice, no source). */
  static final double BUILDS = 1.10;

  /** Less than this is not (common practice, no source). */
  static final double STAYS = 1.05;

  /** From the last trusted test with first-stroke readings; empty when there is no comparison. */
  public static Optional<FirstStroke> of(EngineHistory history, List<Integer> cylinders) {
    return history.trustedTests().stream()
        .filter(test -> test.firstReferenceKpa().length > 0)
        .reduce((earlier, later) -> later)
        .map(test -> of(test, cylinders))
        .filter(stroke -> Double.isFinite(stroke.firstShare()) && stroke.firstShare() > 0)
        .filter(stroke -> Double.isFinite(stroke.peakShare()));
  }

  /** What it says of the cause; empty when the cylinders are not low, or neither is clear. */
  public Optional<CauseEvidence> evidence() {
    double building = peakShare / firstShare;
    if (firstShare <= LOW_SHARE && building >= BUILDS) {
      return Optional.of(CauseEvidence.FIRST_STROKE_BUILDS);
    }
    return peakShare <= LOW_SHARE && building < STAYS
        ? Optional.of(CauseEvidence.FIRST_STROKE_STAYS)
        : Optional.empty();
  }

  private static FirstStroke of(CompressionTest test, List<Integer> cylinders) {
    return new FirstStroke(
        test.testedAt().toLocalDate(),
        share(test.firstReferenceKpa(), test, cylinders),
        share(test.referenceKpa(), test, cylinders));
  }

  /** Mean of the cylinders asked for over the mean of the others, both readings there. */
  private static double share(double[] kpa, CompressionTest test, List<Integer> cylinders) {
    double[] sum = new double[2];
    int[] count = new int[2];
    for (int c = 0; c < kpa.length; c++) {
      if (!Double.isNaN(test.firstReferenceKpa()[c]) && !Double.isNaN(test.referenceKpa()[c])) {
        int group = cylinders.contains(c + 1) ? 0 : 1;
        sum[group] += kpa[c];
        count[group]++;
      }
    }
    return (sum[0] / count[0]) / (sum[1] / count[1]);
  }
}

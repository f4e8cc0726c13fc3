package borecensus.causes;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.SheetKind;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What oil did: the last wet test of an engine beside the dry test nearest to it, with the same
 * gauge, at most {@value #MOST_DAYS_APART} days away (common practice, no source).
 *
 * @param wetOn day of the wet test
 * @param risePct by how much the cylinders asked for read higher with oil, on average
 */
public record WetResponse(LocalDate wetOn, double risePct) {
  static final long MOST_DAYS_APART = 30;

  /** A car maker's workshop manual of 1997: 10 % or more. */
  static final double RISE_PCT = 10;

  /** Less than this is within what repeating a test changes (common practice, no source). */
  static final double HARDLY_PCT = 5;

  /** Empty when there is no such pair, or none of the cylinders was read above zero in both. */
  public static Optional<WetResponse> of(EngineHistory history, List<Integer> cylinders) {
    return history.tests().stream()
        .filter(test -> test.kind() == SheetKind.WET && test.doubts().isEmpty())
        .reduce((earlier, later) -> later)
        .flatMap(wet -> dryBeside(wet, history).map(dry -> pair(dry, wet, cylinders)))
        .filter(response -> !Double.isNaN(response.risePct()));
  }

  /** What it says of the cause; empty for a rise that says neither. */
  public Optional<CauseEvidence> evidence() {
    if (risePct >= RISE_PCT) {
      return Optional.of(CauseEvidence.WET_RISES);
    }
    return risePct < HARDLY_PCT ? Optional.of(CauseEvidence.WET_HARDLY_RISES) : Optional.empty();
  }

  private static Optional<CompressionTest> dryBeside(CompressionTest wet, EngineHistory history) {
    return history.trustedTests().stream()
        .filter(dry -> dry.gaugeId().equals(wet.gaugeId()))
        .filter(dry -> daysApart(dry, wet) <= MOST_DAYS_APART)
        .min(
            Comparator.comparingLong((CompressionTest dry) -> daysApart(dry, wet))
                .thenComparing(CompressionTest::testedAt, Comparator.reverseOrder())
                .thenComparing(CompressionTest::testId));
  }

  private static long daysApart(CompressionTest dry, CompressionTest wet) {
    return Math.abs(
        ChronoUnit.DAYS.between(dry.testedAt().toLocalDate(), wet.testedAt().toLocalDate()));
  }

  private static WetResponse pair(
      CompressionTest dry, CompressionTest wet, List<Integer> cylinders) {
    double drySum = 0;
    double wetSum = 0;
    for (int cylinder : cylinders) {
      double before = dry.referenceKpa()[cylinder - 1];
      double after = wet.referenceKpa()[cylinder - 1];
      if (before > 0 && !Double.isNaN(after)) {
        drySum += before;
        wetSum += after;
      }
    }
    return new WetResponse(wet.testedAt().toLocalDate(), 100 * (wetSum / drySum - 1));
  }
}

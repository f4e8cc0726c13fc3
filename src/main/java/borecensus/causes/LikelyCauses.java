package borecensus.causes;

import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.domain.WetTest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What is likely behind a mark, and what has been tried already.
 *
 * @param shares how probable each cause is
 * @param wet what oil did, where the family permits it; a wet test where it is forbidden is not
 *     asked for and says nothing decisive
 * @param firstStroke what the first stroke showed
 */
public record LikelyCauses(
    CauseShares shares, Optional<WetResponse> wet, Optional<FirstStroke> firstStroke) {

  /**
   * Weighs the causes behind a pattern.
   *
   * @param cylinders the cylinders meant; empty for the whole engine
   */
  public static LikelyCauses of(
      EngineHistory history, Mark mark, List<Integer> cylinders, CauseTable table) {
    List<Integer> all = IntStream.rangeClosed(1, mark.family().cylinders()).boxed().toList();
    Optional<WetResponse> wet =
        mark.family().wetTest() == WetTest.ALLOWED
            ? WetResponse.of(history, cylinders.isEmpty() ? all : cylinders)
            : Optional.empty();
    Optional<FirstStroke> firstStroke = FirstStroke.of(history, cylinders);
    CauseShares shares = table.of(mark.pattern());
    if (mark.pattern() != Reason.HIGH_CYLINDER) {
      for (CauseEvidence evidence : evidence(wet, firstStroke)) {
        shares = shares.given(evidence);
      }
    }
    return new LikelyCauses(confirmed(history).orElse(shares), wet, firstStroke);
  }

  /** A cause that was seen and not repaired or tested since is the cause. */
  private static Optional<CauseShares> confirmed(EngineHistory history) {
    return history
        .lastFinding()
        .filter(finding -> finding.foundFault() && finding.cause() != null)
        .filter(finding -> !history.testedAfter(finding.inspectedOn()))
        .map(finding -> CauseShares.certain(finding.cause()));
  }

  /** What was seen, in the family that it was seen in. */
  public record Mark(Reason pattern, Family family) {}

  /** What speaks for and against causes. */
  public List<CauseEvidence> evidence() {
    return evidence(wet, firstStroke);
  }

  private static List<CauseEvidence> evidence(
      Optional<WetResponse> wet, Optional<FirstStroke> firstStroke) {
    List<CauseEvidence> evidence = new ArrayList<>();
    wet.flatMap(WetResponse::evidence).ifPresent(evidence::add);
    firstStroke.flatMap(FirstStroke::evidence).ifPresent(evidence::add);
    return evidence;
  }
}

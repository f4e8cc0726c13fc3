package borecensus.worklist;

import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import java.util.List;
import java.util.Optional;

/** What the last inspection found, in words, as long as no work on it is recorded. */
public final class ConfirmedFault {
  private ConfirmedFault() {}

  /** The finding, when the last inspection of the engine found a fault. */
  static Optional<Finding> of(EngineHistory history) {
    return history.lastFinding().filter(Finding::foundFault);
  }

  /** Whether nothing is known of the engine since. */
  static boolean stands(EngineHistory history, Finding finding) {
    return !history.testedAfter(finding.inspectedOn());
  }

  /** What the inspection adds to the evidence; empty when there is nothing to say. */
  public static String evidence(EngineHistory history) {
    return history
        .lastFinding()
        .map(
            finding ->
                finding.foundFault()
                    ? " A fault was confirmed on %s%s; no work on it is recorded."
                        .formatted(finding.inspectedOn(), cause(finding))
                    : " No fault was found on %s: only what later tests show beyond the earlier"
                            .formatted(finding.inspectedOn())
                        + " ones counts.")
        .orElse("");
  }

  /** What to do about a fault that is known. */
  static String nextStep(Finding finding) {
    return "By the maker's procedure and limits, repair what was confirmed on %s%s, enter the work in repairs.csv, then test again."
        .formatted(finding.inspectedOn(), cause(finding));
  }

  /** The cylinders that the workshop named, or else those suspected. */
  static List<Integer> cylinders(Optional<Finding> finding, List<Integer> suspects) {
    return finding.map(Finding::cylinders).filter(named -> !named.isEmpty()).orElse(suspects);
  }

  private static String cause(Finding finding) {
    return finding.cause() == null ? "" : " (" + finding.cause().meaning() + ")";
  }
}

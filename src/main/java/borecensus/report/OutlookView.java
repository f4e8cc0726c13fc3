package borecensus.report;

import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.worklist.Outlook;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What is likely behind a mark and what is at stake, as the template takes it.
 *
 * @param note what the shares rest on
 * @param seen what wet test and first strokes showed
 * @param toLimit how far it is from its limit
 * @param inspections of this engine, latest first
 */
record OutlookView(
    List<Section<CauseLine>> causes,
    String note,
    String seen,
    String toLimit,
    List<Section<FindingLine>> inspections) {
  private static final double WORTH_TELLING = 0.01;

  record CauseLine(String cause, String share) {}

  record FindingLine(String on, String result, String cause, String cylinders) {}

  /**
   * The view of an engine.
   *
   * @param lastUsage at the last believed test; NaN when not known
   */
  static OutlookView of(Outlook outlook, EngineHistory history, double lastUsage) {
    return new OutlookView(
        Section.of(causes(outlook)),
        note(history),
        outlook.causeEvidence().isEmpty()
            ? "Neither a wet test nor readings of the first stroke tell more."
            : ShownText.text(outlook.causeEvidence()),
        LimitText.of(outlook.toLimit(), lastUsage),
        Section.of(findings(history)));
  }

  private static Stream<CauseLine> causes(Outlook outlook) {
    return IntStream.range(0, outlook.likelyCauses().size())
        .filter(i -> outlook.causeShares().get(i) >= WORTH_TELLING)
        .mapToObj(
            i ->
                new CauseLine(
                    ShownText.capitalised(outlook.likelyCauses().get(i).meaning()),
                    ShownText.probability(outlook.causeShares().get(i))));
  }

  /** A cause that was seen, and not tested since, is no longer a matter of shares. */
  private static String note(EngineHistory history) {
    Optional<Finding> seen =
        history
            .lastFinding()
            .filter(finding -> finding.foundFault() && finding.cause() != null)
            .filter(finding -> !history.testedAfter(finding.inspectedOn()));
    return seen.map(finding -> "As the inspection of " + finding.inspectedOn() + " found it")
        .orElse(
            "Should an inspection find a cause, how probable each is: by what is declared for this"
                + " pattern, what inspections of this fleet found behind it, and what stands below");
  }

  private static Stream<FindingLine> findings(EngineHistory history) {
    List<Finding> latestFirst = new ArrayList<>(history.findings());
    Collections.reverse(latestFirst);
    return latestFirst.stream()
        .map(
            finding ->
                new FindingLine(
                    finding.inspectedOn().toString(),
                    result(finding.result()),
                    finding.cause() == null ? "–" : finding.cause().meaning(),
                    finding.cylinders().isEmpty()
                        ? "–"
                        : String.join(
                            ", ", finding.cylinders().stream().map(String::valueOf).toList())));
  }

  private static String result(FindingResult result) {
    return switch (result) {
      case CONFIRMED -> "confirmed";
      case NO_FAULT_FOUND -> "no fault found";
      case INCONCLUSIVE -> "told nothing";
    };
  }
}

package borecensus.inspections;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.Reason;
import borecensus.norms.FleetNorms;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Predicate;

/**
 * An engine as tonight's norms would have judged it on the day it was inspected: by the tests up to
 * that day and the findings before it.
 *
 * @param pattern the most probable fault then; null when it could not be judged
 * @param faultProbability then, before the inspection
 */
public record InspectedEngine(
    EngineHistory history, Finding finding, Reason pattern, double faultProbability) {

  /** Judges an engine of a family that has a norm. */
  public static InspectedEngine of(EngineHistory history, Finding finding, FleetNorms norms) {
    EngineHistory then = before(history, finding.inspectedOn().plusDays(1));
    EngineHistory uninspected =
        then.withFindings(
            keep(then.findings(), f -> f.inspectedOn().isBefore(finding.inspectedOn())));
    EngineAssessment assessment = Screening.assess(uninspected, norms);
    boolean judged = assessment.verdict().main() != null;
    return new InspectedEngine(
        history,
        finding,
        judged ? assessment.verdict().main().reason() : null,
        assessment.faultProbability());
  }

  /** The engine as it was known before a day. */
  public static EngineHistory before(EngineHistory history, LocalDate day) {
    List<CompressionTest> tests =
        keep(history.tests(), t -> t.testedAt().toLocalDate().isBefore(day));
    return history
        .withTests(tests)
        .withFindings(keep(history.findings(), f -> f.inspectedOn().isBefore(day)));
  }

  private static <T> List<T> keep(List<T> all, Predicate<T> wanted) {
    return all.stream().filter(wanted).toList();
  }
}

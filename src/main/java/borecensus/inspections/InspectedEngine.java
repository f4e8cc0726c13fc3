package borecensus.inspections;

import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.Reason;
import borecensus.norms.FleetNorms;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;

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
    EngineHistory then = history.before(finding.inspectedOn().plusDays(1));
    EngineHistory uninspected =
        then.withFindings(
            then.findings().stream()
                .filter(f -> f.inspectedOn().isBefore(finding.inspectedOn()))
                .toList());
    EngineAssessment assessment = Screening.assess(uninspected, norms);
    boolean judged = assessment.verdict().main() != null;
    return new InspectedEngine(
        history,
        finding,
        judged ? assessment.verdict().main().reason() : null,
        assessment.faultProbability());
  }
}

package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.inspections.AuditDraw;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.screening.ClearedEngine;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;
import borecensus.worklist.FleetKnowledge;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.TestNeed;
import borecensus.worklist.TestToRepeat;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a screened engine's row says beyond its status: inspections, the draw, the plan. */
final class EngineExtras {
  private EngineExtras() {}

  /** The night, and the vehicle's next service; null when not stated. */
  record Tonight(LocalDate asOf, LocalDate nextServiceOn) implements Serializable {}

  /** The last cells of {@link ScreeningField}, in their order. */
  static List<Object> cells(
      EngineHistory history,
      EngineAssessment assessment,
      Optional<TestToRepeat> repeat,
      FleetKnowledge fleet,
      Tonight tonight) {
    List<Object> cells = new ArrayList<>();
    Optional<Finding> finding = history.lastFinding();
    cells.add(finding.map(Finding::inspectedOn).orElse(null));
    cells.add(finding.map(f -> f.outcome().code()).orElse(null));
    cells.add(ClearedEngine.clearance(history).map(Finding::inspectedOn).orElse(null));
    cells.addAll(audit(history, assessment, fleet.norms(), AuditDraw.on(tonight.asOf())));
    cells.addAll(plan(history, assessment, repeat, fleet.norms(), tonight));
    cells.add(tonight.nextServiceOn());
    return cells;
  }

  private static List<Object> audit(
      EngineHistory history, EngineAssessment assessment, FleetNorms norms, AuditDraw draw) {
    List<Object> cells = new ArrayList<>();
    Optional<EngineHistory> eligible =
        judged(assessment) ? draw.eligible(history) : Optional.empty();
    cells.add(
        eligible
            .map(
                then ->
                    then.equals(history)
                        ? assessment.faultProbability()
                        : Screening.assess(then, norms).faultProbability())
            .orElse(null));
    cells.add(eligible.map(EngineExtras::lastTrustedOn).orElse(null));
    cells.add(draw.key(history.engineId()));
    return cells;
  }

  private static LocalDate lastTrustedOn(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    return trusted.get(trusted.size() - 1).testedAt().toLocalDate();
  }

  private static List<Object> plan(
      EngineHistory history,
      EngineAssessment assessment,
      Optional<TestToRepeat> repeat,
      FleetNorms norms,
      Tonight tonight) {
    FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
    LimitDistance toLimit =
        judged(assessment)
            ? LimitDistance.of(history, assessment.faultProbability(), norm, norms)
            : null;
    Optional<TestNeed> need =
        TestNeed.of(
            new TestNeed.Known(
                history,
                assessment.faultProbability(),
                repeat,
                toLimit,
                assessment.lastTestedOn(),
                tonight.nextServiceOn()),
            norm,
            norms.shares(),
            tonight.asOf());
    List<Object> cells = new ArrayList<>();
    cells.add(need.map(TestNeed::score).orElse(null));
    cells.add(need.map(TestNeed::why).orElse(null));
    return cells;
  }

  private static boolean judged(EngineAssessment assessment) {
    return !assessment.verdict().probabilities().isEmpty();
  }
}

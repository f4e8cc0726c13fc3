package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.UsageAxis;
import borecensus.screening.EngineAssessment;
import borecensus.screening.LastTest;
import borecensus.worklist.EngineBrief;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.spark.sql.Row;

/** Screened engines as rows. */
final class ScreeningRows {
  /** No engine below this is ever marked, so nothing is written for the work list. */
  private static final double WORTH_A_BRIEF = 1e-4;

  private ScreeningRows() {}

  static Row toRow(EngineHistory history, EngineAssessment assessment, FleetNorms norms) {
    LastTest last = assessment.lastTest();
    UsageAxis axis = norms.family(history.familyId()).map(FamilyNorm::axis).orElseThrow();
    boolean judged = !assessment.verdict().probabilities().isEmpty();
    Optional<EngineBrief> brief =
        judged && assessment.faultProbability() >= WORTH_A_BRIEF
            ? Optional.of(EngineBrief.of(history, assessment, norms))
            : Optional.empty();
    Optional<WorkListEntry> entry = brief.map(EngineBrief::entry);
    Optional<TestToRepeat> repeat =
        TestToRepeat.of(history, assessment, norms.family(history.familyId()).orElseThrow());
    return TableSchemas.row(
        assessment.vehicleId(),
        assessment.engineId(),
        assessment.familyId(),
        assessment.lastTestedOn(),
        assessment.testsUsed(),
        axis == UsageAxis.KM ? last.usage() : Double.NaN,
        axis == UsageAxis.HOURS ? last.usage() : Double.NaN,
        last.levelPct(),
        last.levelZ(),
        last.spreadPct(),
        last.spreadZ(),
        spreadIsLowerBound(history),
        last.lowestCylinder() == 0 ? null : last.lowestCylinder(),
        assessment.trend().pct(),
        assessment.trend().z(),
        assessment.faultProbability(),
        assessment.verdict().reasons().stream().map(Reason::code).toArray(String[]::new),
        assessment.verdict().suspectCylinders().toArray(new Integer[0]),
        assessment.judgement().code(),
        entry.map(e -> e.suspectCylinders().toArray(new Integer[0])).orElse(null),
        entry.map(WorkListEntry::priority).orElse(null),
        entry.map(e -> e.mainReason().code()).orElse(null),
        entry.map(WorkListEntry::evidence).orElse(null),
        entry.map(WorkListEntry::nextStep).orElse(null),
        history.homeSiteId(),
        brief.map(b -> b.deviationPct().toArray(new Double[0])).orElse(null),
        repeat.map(TestToRepeat::testedOn).orElse(null),
        repeat.map(TestToRepeat::gaugeId).orElse(null),
        repeat.map(TestToRepeat::because).orElse(null),
        repeat.map(TestToRepeat::nextStep).orElse(null),
        history.originalEngine());
  }

  /** An engine whose family cannot be used: it is listed, and nothing is said of it. */
  static Row unusableFamily(EngineHistory history, double priorProbability) {
    Object[] cells = new Object[ScreeningField.values().length];
    cells[ScreeningField.VEHICLE_ID.ordinal()] = history.vehicleId();
    cells[ScreeningField.ENGINE_ID.ordinal()] = history.engineId();
    cells[ScreeningField.FAMILY_ID.ordinal()] = history.familyId();
    cells[ScreeningField.TESTS_USED.ordinal()] = 0;
    cells[ScreeningField.SPREAD_IS_LOWER_BOUND.ordinal()] = null;
    cells[ScreeningField.FAULT_PROBABILITY.ordinal()] = priorProbability;
    cells[ScreeningField.REASONS.ordinal()] = new String[0];
    cells[ScreeningField.SUSPECT_CYLINDERS.ordinal()] = new Integer[0];
    cells[ScreeningField.JUDGEMENT.ordinal()] = "family_not_usable";
    cells[ScreeningField.SITE_ID.ordinal()] = history.homeSiteId();
    cells[ScreeningField.ORIGINAL_ENGINE.ordinal()] = history.originalEngine();
    return TableSchemas.row(cells);
  }

  private static Boolean spreadIsLowerBound(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    return trusted.isEmpty()
        ? null
        : Arrays.stream(trusted.get(trusted.size() - 1).referenceKpa()).anyMatch(Double::isNaN);
  }
}

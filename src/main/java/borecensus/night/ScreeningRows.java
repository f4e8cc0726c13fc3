package borecensus.night;

import borecensus.domain.Cause;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.UsageAxis;
import borecensus.screening.EngineAssessment;
import borecensus.screening.LastTest;
import borecensus.screening.Screening;
import borecensus.worklist.EngineBrief;
import borecensus.worklist.FleetKnowledge;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.Outlook;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.apache.spark.sql.Row;

/** Screened engines as rows. */
final class ScreeningRows {
  /** No engine below this is ever marked, so nothing is written for the work list. */
  private static final double WORTH_A_BRIEF = 1e-4;

  private ScreeningRows() {}

  static Row toRow(EngineHistory history, FleetKnowledge fleet, EngineExtras.Tonight tonight) {
    FleetNorms norms = fleet.norms();
    EngineAssessment assessment = Screening.assess(history, norms);
    LastTest last = assessment.lastTest();
    UsageAxis axis = norms.family(history.familyId()).map(FamilyNorm::axis).orElseThrow();
    boolean judged = !assessment.verdict().probabilities().isEmpty();
    Optional<EngineBrief> brief =
        judged && assessment.faultProbability() >= WORTH_A_BRIEF
            ? Optional.of(EngineBrief.of(history, assessment, fleet))
            : Optional.empty();
    Optional<WorkListEntry> entry = brief.map(EngineBrief::entry);
    Optional<Outlook> outlook = entry.map(WorkListEntry::outlook);
    Optional<TestToRepeat> repeat =
        TestToRepeat.of(history, assessment, norms.family(history.familyId()).orElseThrow());
    Object[] status = {
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
      outlook.map(o -> codes(o.likelyCauses())).orElse(null),
      outlook.map(o -> o.causeShares().toArray(new Double[0])).orElse(null),
      outlook.map(Outlook::causeEvidence).orElse(null),
      outlook.map(o -> o.toLimit().limit().code()).orElse(null),
      toLimit(outlook, UsageAxis.KM, LimitDistance::usage),
      toLimit(outlook, UsageAxis.KM, LimitDistance::lowerUsage),
      toLimit(outlook, UsageAxis.KM, LimitDistance::upperUsage),
      toLimit(outlook, UsageAxis.HOURS, LimitDistance::usage),
      toLimit(outlook, UsageAxis.HOURS, LimitDistance::lowerUsage),
      toLimit(outlook, UsageAxis.HOURS, LimitDistance::upperUsage),
      outlook.map(Outlook::expectedSaving).orElse(null)
    };
    return TableSchemas.row(
        Stream.of(
                Arrays.stream(status),
                EngineExtras.cells(history, assessment, repeat, fleet, tonight).stream(),
                Stream.of(history.originalEngine()))
            .flatMap(cells -> cells)
            .toArray());
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

  private static Double toLimit(
      Optional<Outlook> outlook, UsageAxis axis, ToDoubleFunction<LimitDistance> figure) {
    return outlook.map(o -> o.toLimit(axis, figure)).orElse(null);
  }

  private static String[] codes(List<Cause> causes) {
    return causes.stream().map(Cause::code).toArray(String[]::new);
  }

  private static Boolean spreadIsLowerBound(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    return trusted.isEmpty()
        ? null
        : Arrays.stream(trusted.get(trusted.size() - 1).referenceKpa()).anyMatch(Double::isNaN);
  }
}

package borecensus.night;

import borecensus.domain.Cause;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.night.EngineExtras.Screened;
import borecensus.night.EngineExtras.Tonight;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.UsageAxis;
import borecensus.screening.EngineAssessment;
import borecensus.screening.LastTest;
import borecensus.screening.ModelledEngine;
import borecensus.screening.Screening;
import borecensus.worklist.EngineBrief;
import borecensus.worklist.FleetKnowledge;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.Outlook;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.spark.sql.Row;

/** Screened engines as rows. */
final class ScreeningRows {
  private ScreeningRows() {}

  /** What screening says of one engine of a known family. */
  static Row toRow(
      ModelledEngine modelled, LocalDate nextServiceOn, FleetKnowledge fleet, Tonight tonight) {
    FleetNorms norms = fleet.norms();
    EngineHistory history = modelled.history();
    FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
    EngineAssessment assessment = Screening.assess(modelled, norms);
    Optional<TestToRepeat> repeat = TestToRepeat.of(history, assessment, norm);
    Screened engine = new Screened(modelled, assessment, repeat, nextServiceOn);
    Object[] cells = new Object[ScreeningField.values().length];
    fillEngine(cells, history);
    fillStatus(cells, assessment, norm);
    put(cells, ScreeningField.SPREAD_IS_LOWER_BOUND, spreadIsLowerBound(history));
    fillVerdict(cells, assessment);
    if (engine.judged() && assessment.faultProbability() >= tonight.worthABrief()) {
      fillBrief(cells, EngineBrief.of(history, assessment, fleet));
    }
    repeat.ifPresent(test -> fillRepeat(cells, test));
    EngineExtras.fill(cells, engine, norms, tonight);
    return TableSchemas.row(cells);
  }

  private static void fillEngine(Object[] cells, EngineHistory history) {
    put(cells, ScreeningField.VEHICLE_ID, history.vehicleId());
    put(cells, ScreeningField.ENGINE_ID, history.engineId());
    put(cells, ScreeningField.FAMILY_ID, history.familyId());
    put(cells, ScreeningField.SITE_ID, history.homeSiteId());
    put(cells, ScreeningField.ORIGINAL_ENGINE, history.originalEngine());
  }

  private static void fillStatus(Object[] cells, EngineAssessment assessment, FamilyNorm norm) {
    LastTest last = assessment.lastTest();
    put(cells, ScreeningField.LAST_TESTED_ON, assessment.lastTestedOn());
    put(cells, ScreeningField.TESTS_USED, assessment.testsUsed());
    put(
        cells,
        norm.axis() == UsageAxis.KM ? ScreeningField.DISTANCE_KM : ScreeningField.ENGINE_HOURS,
        last.usage());
    put(cells, ScreeningField.LEVEL_PCT, last.levelPct());
    put(cells, ScreeningField.LEVEL_Z, last.levelZ());
    put(cells, ScreeningField.SPREAD_PCT, last.spreadPct());
    put(cells, ScreeningField.SPREAD_Z, last.spreadZ());
    put(
        cells,
        ScreeningField.LOWEST_CYLINDER,
        last.lowestCylinder() == 0 ? null : last.lowestCylinder());
    put(cells, ScreeningField.TREND_PCT_PER_100K_KM, assessment.trend().pct());
    put(cells, ScreeningField.TREND_Z, assessment.trend().z());
  }

  private static void fillVerdict(Object[] cells, EngineAssessment assessment) {
    put(cells, ScreeningField.FAULT_PROBABILITY, assessment.faultProbability());
    List<Reason> reasons = assessment.verdict().reasons();
    String[] codes = new String[reasons.size()];
    Arrays.setAll(codes, i -> reasons.get(i).code());
    put(cells, ScreeningField.REASONS, codes);
    put(
        cells,
        ScreeningField.SUSPECT_CYLINDERS,
        assessment.verdict().suspectCylinders().toArray(new Integer[0]));
    put(cells, ScreeningField.JUDGEMENT, assessment.judgement().code());
  }

  private static void fillBrief(Object[] cells, EngineBrief brief) {
    WorkListEntry entry = brief.entry();
    put(
        cells,
        ScreeningField.NAMED_CYLINDERS,
        entry.suspectCylinders().toArray(new Integer[0]));
    put(cells, ScreeningField.PRIORITY, entry.priority());
    put(cells, ScreeningField.MAIN_REASON, entry.mainReason().code());
    put(cells, ScreeningField.EVIDENCE, entry.evidence());
    put(cells, ScreeningField.NEXT_STEP, entry.nextStep());
    put(cells, ScreeningField.DEVIATION_PCT, brief.deviationPct().toArray(new Double[0]));
    fillOutlook(cells, entry.outlook());
  }

  private static void fillOutlook(Object[] cells, Outlook outlook) {
    put(cells, ScreeningField.LIKELY_CAUSES, codes(outlook.likelyCauses()));
    put(cells, ScreeningField.CAUSE_SHARES, outlook.causeShares().toArray(new Double[0]));
    put(cells, ScreeningField.CAUSE_EVIDENCE, outlook.causeEvidence());
    LimitDistance toLimit = outlook.toLimit();
    put(cells, ScreeningField.LIMIT, toLimit.limit().code());
    boolean km = toLimit.axis() == UsageAxis.KM;
    put(
        cells,
        km ? ScreeningField.DISTANCE_TO_LIMIT_KM : ScreeningField.HOURS_TO_LIMIT,
        toLimit.usage());
    put(
        cells,
        km ? ScreeningField.DISTANCE_TO_LIMIT_LOWER_KM : ScreeningField.HOURS_TO_LIMIT_LOWER,
        toLimit.lowerUsage());
    put(
        cells,
        km ? ScreeningField.DISTANCE_TO_LIMIT_UPPER_KM : ScreeningField.HOURS_TO_LIMIT_UPPER,
        toLimit.upperUsage());
    put(cells, ScreeningField.EXPECTED_SAVING, outlook.expectedSaving());
  }

  private static void fillRepeat(Object[] cells, TestToRepeat repeat) {
    put(cells, ScreeningField.REPEAT_TESTED_ON, repeat.testedOn());
    put(cells, ScreeningField.REPEAT_GAUGE_ID, repeat.gaugeId());
    put(cells, ScreeningField.REPEAT_BECAUSE, repeat.because());
    put(cells, ScreeningField.REPEAT_STEP, repeat.nextStep());
  }

  private static void put(Object[] cells, ScreeningField field, Object value) {
    cells[field.ordinal()] = value;
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

  private static String[] codes(List<Cause> causes) {
    return causes.stream().map(Cause::code).toArray(String[]::new);
  }

  private static Boolean spreadIsLowerBound(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    if (trusted.isEmpty()) {
      return null;
    }
    for (double kpa : trusted.get(trusted.size() - 1).referenceKpa()) {
      if (Double.isNaN(kpa)) {
        return true;
      }
    }
    return false;
  }
}

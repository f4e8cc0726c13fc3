package borecensus.night;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.inspections.AuditDraw;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.screening.ClearedEngine;
import borecensus.screening.EngineAssessment;
import borecensus.screening.ModelledEngine;
import borecensus.screening.Screening;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.TestNeed;
import borecensus.worklist.TestToRepeat;
import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** What a screened engine's row says beyond its status: inspections, the draw, the plan. */
final class EngineExtras {
  private EngineExtras() {}

  /**
   * The night.
   *
   * @param draw of the month
   * @param worthABrief what the work list would say is written from this probability on
   */
  record Tonight(LocalDate asOf, AuditDraw draw, double worthABrief) implements Serializable {
    static Tonight on(LocalDate asOf, double worthABrief) {
      return new Tonight(asOf, AuditDraw.on(asOf), worthABrief);
    }
  }

  /**
   * An engine with what screening said of it.
   *
   * @param nextServiceOn of its vehicle; null when not stated
   */
  record Screened(
      ModelledEngine modelled,
      EngineAssessment assessment,
      Optional<TestToRepeat> repeat,
      LocalDate nextServiceOn) {

    EngineHistory history() {
      return modelled.history();
    }

    boolean judged() {
      return !assessment.verdict().probabilities().isEmpty();
    }
  }

  /** Fills in the last cells of {@link ScreeningField}. */
  static void fill(Object[] cells, Screened engine, FleetNorms norms, Tonight tonight) {
    Optional<Finding> finding = engine.history().lastFinding();
    finding.ifPresent(
        f -> {
          put(cells, ScreeningField.INSPECTED_ON, f.inspectedOn());
          put(cells, ScreeningField.INSPECTION_RESULT, f.outcome().code());
        });
    ClearedEngine.clearance(engine.history())
        .ifPresent(f -> put(cells, ScreeningField.CLEARED_ON, f.inspectedOn()));
    if (engine.judged()) {
      audit(cells, engine, norms, tonight.draw());
    }
    plan(cells, engine, norms, tonight);
    put(cells, ScreeningField.NEXT_SERVICE_ON, engine.nextServiceOn());
  }

  private static void audit(Object[] cells, Screened engine, FleetNorms norms, AuditDraw draw) {
    EngineHistory tonight = engine.history();
    EngineHistory then = draw.eligible(tonight).orElse(null);
    if (then == null) {
      return;
    }
    // Most engines were not tested since, and need not be judged twice.
    EngineAssessment judgedThen =
        then.equals(tonight) ? engine.assessment() : Screening.assess(then, norms);
    put(cells, ScreeningField.AUDIT_PROBABILITY, judgedThen.faultProbability());
    put(cells, ScreeningField.AUDIT_TESTED_ON, lastTrustedOn(then));
    put(cells, ScreeningField.AUDIT_KEY, draw.key(tonight.engineId()));
  }

  private static LocalDate lastTrustedOn(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    return trusted.get(trusted.size() - 1).testedAt().toLocalDate();
  }

  private static void plan(Object[] cells, Screened engine, FleetNorms norms, Tonight tonight) {
    double probability = engine.assessment().faultProbability();
    FamilyNorm norm = norms.family(engine.history().familyId()).orElseThrow();
    double unitsToLimit =
        engine.judged()
            ? LimitDistance.of(engine.modelled().model(), probability, norm).units()
            : Double.NaN;
    put(cells, ScreeningField.UNITS_TO_LIMIT, unitsToLimit);
    TestNeed.of(
            new TestNeed.Known(
                engine.history().familyId(),
                probability,
                engine.repeat().isPresent(),
                unitsToLimit,
                engine.assessment().lastTestedOn(),
                engine.nextServiceOn()),
            norm,
            norms.shares(),
            tonight.asOf())
        .ifPresent(need -> plan(cells, need));
  }

  private static void plan(Object[] cells, TestNeed need) {
    put(cells, ScreeningField.PLAN_SCORE, need.score());
    put(cells, ScreeningField.PLAN_PROBABILITY, need.grounds().probability());
    put(cells, ScreeningField.PLAN_AT_LIMIT, need.grounds().atLimit());
    put(cells, ScreeningField.PLAN_SERVICE_ON, need.grounds().serviceOn());
  }

  private static void put(Object[] cells, ScreeningField field, Object value) {
    cells[field.ordinal()] = value;
  }
}

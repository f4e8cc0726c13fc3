package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FaultPosterior;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.norms.Hypothesis;
import borecensus.norms.KnownState;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** Judges one engine. */
public final class Screening {
  private static final double TRUE_SUDDEN_LOSSES = 0.1;

  private Screening() {}

  /**
   * Judges an engine by its trusted tests, at most the last twelve. Of one that was inspected and
   * found sound only counts what came after ({@link ClearedEngine}).
   *
   * @throws IllegalArgumentException when the norms do not know its family
   */
  public static EngineAssessment assess(EngineHistory history, FleetNorms norms) {
    return assess(ModelledEngine.of(history, norms), norms);
  }

  /** The same, of an engine whose residuals are at hand. */
  public static EngineAssessment assess(ModelledEngine engine, FleetNorms norms) {
    EngineHistory history = engine.history();
    if (engine.model() == null) {
      return untested(history, norms);
    }
    FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
    CompressionTest last = lastTrusted(history);
    HealthyModel model = engine.model();
    LastTest lastTest = LastTest.of(last, model, norm, norms);
    Trend trend = Trend.of(model, norm);
    return norm.judgeable()
        ? assessment(
            history,
            norm.small() ? Judgement.JUDGED_SMALL_FAMILY : Judgement.JUDGED,
            model.tests(),
            lastTest,
            trend,
            verdict(engine, last, norm, norms))
        : assessment(
            history,
            Judgement.FAMILY_TOO_SMALL,
            model.tests(),
            lastTest.withoutScores(),
            new Trend(trend.pct(), Double.NaN),
            tooSmall(last, norm, norms));
  }

  /**
   * A last test in doubt is hardly believed until it is repeated: reasons are those that the tests
   * before it give, and what it adds to the probability counts for {@value #TRUE_SUDDEN_LOSSES}.
   * That is the share of sudden losses of the whole level which are the engine's: "all low:
   * throttle, cranking speed, gauge and altitude first, wear last" (common practice; the figure is
   * a choice, no source).
   */
  private static Verdict verdict(
      ModelledEngine engine, CompressionTest last, FamilyNorm norm, FleetNorms norms) {
    EngineHistory whole = engine.history();
    EngineHistory history = ClearedEngine.evidence(whole, norm, norms);
    // Few engines were ever cleared; of all others the whole history is the evidence.
    HealthyModel model = history == whole ? engine.model() : HealthyModel.of(history, norm, norms);
    FaultPosterior posterior = FaultPosterior.of(model, norm, norms);
    int testsSinceDoubted =
        KnownState.of(history) == KnownState.SOUND
            ? DoubtedTest.NONE
            : DoubtedTest.testsSince(history, posterior, norm, norms);
    FaultPosterior believed =
        testsSinceDoubted == 0 && model.tests() > 1
            ? FaultPosterior.of(
                HealthyModel.of(DoubtedTest.withoutLast(history), norm, norms), norm, norms)
            : posterior;
    List<Hypothesis> named =
        testsSinceDoubted == DoubtedTest.NONE ? Reasons.named(believed) : List.of();
    List<Reason> reasons = new ArrayList<>(Reasons.of(named, last, norm.family()));
    if (testsSinceDoubted != DoubtedTest.NONE) {
      reasons.add(Reason.DOUBTFUL_MEASUREMENT);
    }
    Hypothesis main = Reasons.first(believed);
    double added = Math.max(0, posterior.faultProbability() - believed.faultProbability());
    return new Verdict(
        believed.faultProbability() + TRUE_SUDDEN_LOSSES * added,
        reasons,
        Reasons.suspects(named, believed),
        main,
        Reasons.suspects(List.of(main), believed),
        believed.probabilities(),
        testsSinceDoubted,
        -100 * Math.expm1(believed.logShift()));
  }

  private static CompressionTest lastTrusted(EngineHistory history) {
    List<CompressionTest> tests = history.tests();
    int last = tests.size() - 1;
    while (!tests.get(last).trusted()) {
      last--;
    }
    return tests.get(last);
  }

  private static Verdict tooSmall(CompressionTest last, FamilyNorm norm, FleetNorms norms) {
    return Verdict.unjudged(
        norms.shares().prevalence(norm.family().familyId()),
        Reasons.belowMakerLimit(last, norm.family())
            ? List.of(Reason.BELOW_MAKER_LIMIT)
            : List.of());
  }

  private static EngineAssessment untested(EngineHistory history, FleetNorms norms) {
    boolean dry = history.tests().stream().anyMatch(t -> t.kind() == SheetKind.DRY);
    double prevalence = norms.shares().prevalence(history.familyId());
    return dry
        ? assessment(
            history,
            Judgement.ONLY_DOUBTFUL_TESTS,
            0,
            LastTest.NONE,
            Trend.UNKNOWN,
            Verdict.unjudged(prevalence, List.of(Reason.DOUBTFUL_MEASUREMENT)))
        : assessment(
            history,
            Judgement.NEVER_TESTED,
            0,
            LastTest.NONE,
            Trend.UNKNOWN,
            Verdict.unjudged(prevalence, List.of()));
  }

  private static EngineAssessment assessment(
      EngineHistory history,
      Judgement judgement,
      int testsUsed,
      LastTest lastTest,
      Trend trend,
      Verdict verdict) {
    return new EngineAssessment(
        history.vehicleId(),
        history.engineId(),
        history.familyId(),
        judgement,
        lastTestedOn(history),
        testsUsed,
        lastTest,
        trend,
        verdict);
  }

  /** The day of the last dry test, believed or not. */
  private static LocalDate lastTestedOn(EngineHistory history) {
    LocalDate last = null;
    for (CompressionTest test : history.tests()) {
      LocalDate day = test.testedAt().toLocalDate();
      if (test.kind() == SheetKind.DRY && (last == null || day.isAfter(last))) {
        last = day;
      }
    }
    return last;
  }
}

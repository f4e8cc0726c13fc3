package borecensus.worklist;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.screening.EngineAssessment;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A last test that cannot be believed, so that the engine is to be measured again before anything
 * is said of it.
 *
 * @param because what is wrong with the test, in words
 * @param nextStep what to do, in words
 */
public record TestToRepeat(
    String vehicleId,
    String engineId,
    String familyId,
    String siteId,
    LocalDate testedOn,
    String gaugeId,
    String because,
    String nextStep) {

  /**
   * The engine's last dry test, when it is in doubt on its own sheet or by its day, or when it is
   * all that is off in the engine's history; empty otherwise, also when a later test has already
   * told.
   */
  public static Optional<TestToRepeat> of(
      EngineHistory history, EngineAssessment assessment, FamilyNorm norm) {
    List<CompressionTest> dry =
        history.tests().stream().filter(t -> t.kind() == SheetKind.DRY).toList();
    if (dry.isEmpty()) {
      return Optional.empty();
    }
    CompressionTest last = dry.get(dry.size() - 1);
    if (!last.trusted()) {
      return Optional.of(of(history, last, doubts(last), remedies(last)));
    }
    return assessment.verdict().testsSinceDoubted() == 0
        ? Optional.of(of(history, last, oddLevel(assessment), oddLevelStep(norm)))
        : Optional.empty();
  }

  private static TestToRepeat of(
      EngineHistory history, CompressionTest test, String because, String nextStep) {
    return new TestToRepeat(
        history.vehicleId(),
        history.engineId(),
        history.familyId(),
        history.homeSiteId(),
        test.testedAt().toLocalDate(),
        test.gaugeId(),
        because,
        nextStep);
  }

  private static String doubts(CompressionTest test) {
    String all = test.doubts().stream().map(Doubt::meaning).collect(Collectors.joining("; "));
    return Character.toUpperCase(all.charAt(0)) + all.substring(1) + ".";
  }

  private static String remedies(CompressionTest test) {
    return test.doubts().stream().map(Doubt::remedy).collect(Collectors.joining(" "));
  }

  private static String oddLevel(EngineAssessment assessment) {
    double levelPct = assessment.lastTest().levelPct();
    return "All cylinders read %s %s than expected of a healthy engine, and no earlier test of this engine did."
        .formatted(PlainNumbers.percent(Math.abs(levelPct)), levelPct < 0 ? "lower" : "higher");
  }

  private static String oddLevelStep(FamilyNorm norm) {
    return NextSteps.nextStep(Reason.DOUBTFUL_MEASUREMENT, norm.family());
  }
}

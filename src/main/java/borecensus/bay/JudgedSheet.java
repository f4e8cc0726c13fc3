package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.published.PublishedModel;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;
import borecensus.worklist.EngineBrief;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A test in the history that it belongs to, and what the norms say of the engine with it.
 *
 * @param test with the doubts that the fleet raises
 * @param history with them too, this test included
 * @param marked whether the night would mark the engine
 */
public record JudgedSheet(
    PublishedModel model,
    CompressionTest test,
    EngineHistory history,
    EngineAssessment assessment,
    boolean marked) {
  /** Below this the night writes no brief of an engine either. */
  private static final double WORTH_A_BRIEF = 1e-4;

  /**
   * Judges an engine by its whole history.
   *
   * @param history without the fleet's doubts
   * @param testId of the test in it that the sheet states
   */
  static JudgedSheet of(PublishedModel model, EngineHistory history, String testId) {
    EngineHistory doubted = model.learned().doubted(history);
    CompressionTest test =
        doubted.tests().stream().filter(t -> t.testId().equals(testId)).findFirst().orElseThrow();
    return of(model, test, doubted);
  }

  private static JudgedSheet of(PublishedModel model, CompressionTest test, EngineHistory doubted) {
    EngineAssessment assessment = Screening.assess(doubted, model.learned().norms());
    boolean judged = !assessment.verdict().probabilities().isEmpty();
    boolean marked = judged && model.marks(assessment.faultProbability());
    return new JudgedSheet(model, test, doubted, assessment, marked);
  }

  /** The same, had the test shown other readings. */
  JudgedSheet with(CompressionTest other) {
    return of(
        model,
        other,
        history.withTests(history.tests().stream().map(t -> t == test ? other : t).toList()));
  }

  public FleetNorms norms() {
    return model.learned().norms();
  }

  public FamilyNorm norm() {
    return norms().family(history.familyId()).orElseThrow();
  }

  /** Whether the engine could be judged at all. */
  public boolean judged() {
    return !assessment.verdict().probabilities().isEmpty();
  }

  /** Whether this is the engine's last dry test. */
  public boolean lastDry() {
    List<CompressionTest> dry =
        history.tests().stream().filter(t -> t.kind() == SheetKind.DRY).toList();
    return !dry.isEmpty() && dry.get(dry.size() - 1) == test;
  }

  /** What the work list would say; empty for an engine that is not judged or beyond suspicion. */
  public Optional<EngineBrief> brief() {
    return judged() && assessment.faultProbability() >= WORTH_A_BRIEF
        ? Optional.of(EngineBrief.of(history, assessment, norms()))
        : Optional.empty();
  }

  /** Reasons as the night publishes them: a marked engine's main reason is always among them. */
  public List<Reason> reasons() {
    Set<Reason> reasons = new LinkedHashSet<>(assessment.verdict().reasons());
    Optional<EngineBrief> brief = marked ? brief() : Optional.empty();
    if (brief.isPresent() && !reasons.contains(brief.get().entry().mainReason())) {
      List<Reason> all = new ArrayList<>(List.of(brief.get().entry().mainReason()));
      all.addAll(reasons);
      return all;
    }
    return List.copyOf(reasons);
  }

  /** Suspect cylinders as the night publishes them. */
  public List<Integer> suspects() {
    List<Integer> found = assessment.verdict().suspectCylinders();
    return marked ? brief().map(b -> b.entry().suspectCylinders()).orElse(found) : found;
  }
}

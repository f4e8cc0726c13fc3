package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FaultPosterior;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.norms.Hypothesis;
import java.util.Collections;
import java.util.List;

/**
 * Finds the one test that disagrees in level alone.
 *
 * <p>A test in the middle of a history that is off as a whole is told from a fault by those after
 * it. The last one is not: whether the engine has lost level since, or was measured badly, no sheet
 * can tell. So in a history of four tests or more a fault of the whole level must be more than its
 * last sheet: when the earlier tests raise the odds of such a fault by less than three to one ("not
 * worth more than a bare mention": Kass and Raftery, 1995, J. Am. Stat. Assoc. 90:773-795), the
 * last test is in doubt until it is repeated.
 */
final class DoubtedTest {
  private static final int LONG_HISTORY = 4;
  private static final double BARE_MENTION = 3;
  private static final List<Hypothesis> LEVEL_FAULTS =
      List.of(Hypothesis.LOW_OVERALL, Hypothesis.FALLING_LEVEL);

  /** No test is in doubt. */
  static final int NONE = -1;

  private DoubtedTest() {}

  /** How many trusted tests came after the doubted one; {@link #NONE} when there is none such. */
  static int testsSince(
      EngineHistory history, FaultPosterior posterior, FamilyNorm norm, FleetNorms norms) {
    List<Double> tests = posterior.testProbabilities();
    double doubtful = posterior.probabilities().get(Hypothesis.DOUBTFUL_TEST);
    if (doubtful > Reasons.PROBABLE) {
      return tests.size() - 1 - tests.indexOf(Collections.max(tests));
    }
    boolean levelAlone = doubtful + levelFault(posterior) > Reasons.PROBABLE;
    return levelAlone && tests.size() >= LONG_HISTORY && onlyTheLast(history, norm, norms)
        ? 0
        : NONE;
  }

  /** The trusted tests of a history but for the last one, of which there must be at least two. */
  static EngineHistory withoutLast(EngineHistory history) {
    List<CompressionTest> trusted = history.trustedTests();
    return history.withTests(trusted.subList(0, trusted.size() - 1));
  }

  private static boolean onlyTheLast(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    FaultPosterior posterior =
        FaultPosterior.of(HealthyModel.of(withoutLast(history), norm, norms), norm, norms);
    String familyId = norm.family().familyId();
    double prior = LEVEL_FAULTS.stream().mapToDouble(h -> norms.shares().share(h, familyId)).sum();
    return odds(levelFault(posterior)) < BARE_MENTION * odds(prior);
  }

  private static double levelFault(FaultPosterior posterior) {
    double sum = 0;
    for (Hypothesis h : LEVEL_FAULTS) {
      sum += posterior.probabilities().get(h);
    }
    return sum;
  }

  private static double odds(double probability) {
    return probability / (1 - probability);
  }
}

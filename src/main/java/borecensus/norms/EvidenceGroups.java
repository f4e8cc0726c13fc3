package borecensus.norms;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Engines that share their prior probabilities: of each family those with one test, and those with
 * more.
 *
 * @param familyIds in order; the groups of family f are 2 f (one test) and 2 f + 1 (more)
 * @param byEngine number of each engine's group
 * @param engines by group, how many engines
 */
record EvidenceGroups(List<String> familyIds, int[] byEngine, int[] engines) {

  static EvidenceGroups of(List<FaultEvidence> engines) {
    SortedMap<String, Integer> numbers = new TreeMap<>();
    engines.forEach(e -> numbers.put(e.familyId(), 0));
    List<String> familyIds = List.copyOf(numbers.keySet());
    for (int f = 0; f < familyIds.size(); f++) {
      numbers.put(familyIds.get(f), f);
    }
    int[] byEngine = new int[engines.size()];
    int[] counts = new int[2 * familyIds.size()];
    for (int e = 0; e < byEngine.length; e++) {
      FaultEvidence engine = engines.get(e);
      byEngine[e] = 2 * numbers.get(engine.familyId()) + (engine.tests() == 1 ? 0 : 1);
      counts[byEngine[e]]++;
    }
    return new EvidenceGroups(familyIds, byEngine, counts);
  }

  /** Whether the engines of this group have one test each. */
  static boolean ofOneTest(int group) {
    return group % 2 == 0;
  }

  /** Prior probabilities by group and {@link Hypothesis#ordinal}. */
  double[][] priors(HypothesisShares shares) {
    List<double[]> priors = new ArrayList<>();
    for (String familyId : familyIds) {
      priors.add(shares.priors(familyId, 1));
      priors.add(shares.priors(familyId, 2));
    }
    return priors.toArray(double[][]::new);
  }
}

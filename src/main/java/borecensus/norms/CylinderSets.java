package borecensus.norms;

import borecensus.domain.Family;
import java.util.List;
import java.util.stream.IntStream;

/** Which groups of cylinders (from 0) a fault may strike together. */
final class CylinderSets {
  private CylinderSets() {}

  /** The groups; empty when the engine is too small for this fault to be one of its own. */
  static List<int[]> of(Hypothesis hypothesis, Family family) {
    List<int[]> sets =
        switch (hypothesis) {
          case LOW_CYLINDER, FALLING_CYLINDER, HIGH_CYLINDER ->
              IntStream.range(0, family.cylinders()).mapToObj(c -> new int[] {c}).toList();
          case LOW_ADJACENT_PAIR ->
              family.banks().adjacentPairs().stream()
                  .map(pair -> new int[] {pair.first() - 1, pair.second() - 1})
                  .toList();
          case LOW_BANK -> banks(family);
          case LOW_OVERALL, FALLING_LEVEL, DOUBTFUL_TEST -> List.of(all(family));
        };
    boolean ofWhole = !hypothesis.ofSomeCylinders();
    return sets.stream().filter(s -> ofWhole || s.length < family.cylinders()).toList();
  }

  private static int[] all(Family family) {
    return IntStream.range(0, family.cylinders()).toArray();
  }

  /** Banks of one cylinder are left to the hypotheses about one cylinder. */
  private static List<int[]> banks(Family family) {
    return family.banks().banks().stream()
        .filter(bank -> bank.size() > 1)
        .map(bank -> bank.stream().mapToInt(c -> c - 1).toArray())
        .toList();
  }
}

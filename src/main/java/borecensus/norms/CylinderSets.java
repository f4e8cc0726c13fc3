package borecensus.norms;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Which groups of cylinders (from 0) a fault may strike together. */
final class CylinderSets {
  private CylinderSets() {}

  /** The groups; empty when the engine is too small for this fault to be one of its own. */
  static List<int[]> of(Hypothesis hypothesis, Family family) {
    int cylinders = family.cylinders();
    List<int[]> sets = new ArrayList<>();
    switch (hypothesis) {
      case LOW_CYLINDER, FALLING_CYLINDER, HIGH_CYLINDER -> {
        for (int c = 0; c < cylinders; c++) {
          sets.add(new int[] {c});
        }
      }
      case LOW_ADJACENT_PAIR -> {
        for (Banks.Pair pair : family.banks().adjacentPairs()) {
          sets.add(new int[] {pair.first() - 1, pair.second() - 1});
        }
      }
      case LOW_BANK -> addBanks(family, sets);
      case LOW_OVERALL, FALLING_LEVEL, DOUBTFUL_TEST -> sets.add(all(family));
    }
    if (hypothesis.ofSomeCylinders()) {
      sets.removeIf(set -> set.length == cylinders);
    }
    return sets;
  }

  private static int[] all(Family family) {
    int[] all = new int[family.cylinders()];
    for (int c = 0; c < all.length; c++) {
      all[c] = c;
    }
    return all;
  }

  /** Banks of one cylinder are left to the hypotheses about one cylinder. */
  private static void addBanks(Family family, List<int[]> sets) {
    for (List<Integer> bank : family.banks().banks()) {
      if (bank.size() > 1) {
        int[] set = new int[bank.size()];
        Arrays.setAll(set, i -> bank.get(i) - 1);
        sets.add(set);
      }
    }
  }
}

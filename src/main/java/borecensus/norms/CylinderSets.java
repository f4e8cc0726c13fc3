package borecensus.norms;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Limits;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Which groups of cylinders (from 0) a fault may strike together; shared, and read only. */
final class CylinderSets {
  /** Each cylinder by itself, by how many there are: they depend on nothing else. */
  private static final List<List<int[]>> SINGLES = new ArrayList<>();

  /** All together, likewise. */
  private static final List<List<int[]>> WHOLE = new ArrayList<>();

  static {
    for (int cylinders = 0; cylinders <= Limits.MAX_CYLINDERS; cylinders++) {
      SINGLES.add(singles(cylinders));
      WHOLE.add(List.of(all(cylinders)));
    }
  }

  private CylinderSets() {}

  /** The groups; empty when the engine is too small for this fault to be one of its own. */
  static List<int[]> of(Hypothesis hypothesis, Family family) {
    int cylinders = family.cylinders();
    if (cylinders == 1 && hypothesis.ofSomeCylinders()) {
      return List.of();
    }
    return switch (hypothesis) {
      case LOW_CYLINDER, FALLING_CYLINDER, HIGH_CYLINDER -> SINGLES.get(cylinders);
      case LOW_ADJACENT_PAIR -> cylinders == 2 ? List.of() : pairs(family.banks());
      case LOW_BANK -> banks(family.banks(), cylinders);
      case LOW_OVERALL, FALLING_LEVEL, DOUBTFUL_TEST -> WHOLE.get(cylinders);
    };
  }

  private static List<int[]> singles(int cylinders) {
    List<int[]> singles = new ArrayList<>(cylinders);
    for (int c = 0; c < cylinders; c++) {
      singles.add(new int[] {c});
    }
    return Collections.unmodifiableList(singles);
  }

  private static int[] all(int cylinders) {
    int[] all = new int[cylinders];
    for (int c = 0; c < cylinders; c++) {
      all[c] = c;
    }
    return all;
  }

  private static List<int[]> pairs(Banks banks) {
    List<int[]> pairs = new ArrayList<>();
    for (List<Integer> bank : banks.banks()) {
      for (int i = 0; i + 1 < bank.size(); i++) {
        pairs.add(new int[] {bank.get(i) - 1, bank.get(i + 1) - 1});
      }
    }
    return pairs;
  }

  /** Banks of one cylinder are left to the hypotheses about one cylinder. */
  private static List<int[]> banks(Banks banks, int cylinders) {
    List<int[]> sets = new ArrayList<>(banks.banks().size());
    for (List<Integer> bank : banks.banks()) {
      if (bank.size() > 1 && bank.size() < cylinders) {
        int[] set = new int[bank.size()];
        for (int i = 0; i < set.length; i++) {
          set[i] = bank.get(i) - 1;
        }
        sets.add(set);
      }
    }
    return sets;
  }
}

package borecensus.benchmark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What the relational part comes to, for comparing two ways of computing it.
 *
 * @param families in the order of their names
 * @param ranked the engines furthest below their family's middle, furthest first
 */
record RelationalAnswers(List<FamilyCentiles> families, List<RankedEngine> ranked) {
  /** Length of the ranked list. */
  static final int MOST_RANKED = 1_000;

  /** Two orders of summing differ by less. */
  private static final double ROUNDING = 1e-9;

  /** Centiles by linear interpolation between order statistics. */
  static final double[] CENTILES = {0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99};

  /**
   * One family.
   *
   * @param level centiles of the mean log reading of a test, at reference pressure
   * @param spreadPct centiles of the spread of a test
   */
  record FamilyCentiles(String familyId, long tests, double[] level, double[] spreadPct)
      implements Serializable {}

  /**
   * One engine.
   *
   * @param meanDeviation of its tests' levels from the middle test of its family
   */
  record RankedEngine(String vehicleId, long tests, double meanDeviation) implements Serializable {}

  /** Where two sets of answers differ by more than rounding; empty when they agree. */
  List<String> differences(RelationalAnswers other) {
    List<String> differences = new ArrayList<>();
    if (families.size() != other.families.size() || ranked.size() != other.ranked.size()) {
      differences.add("the lists have other lengths");
      return differences;
    }
    for (int f = 0; f < families.size(); f++) {
      if (!alike(families.get(f), other.families.get(f))) {
        differences.add("family " + families.get(f).familyId());
      }
    }
    for (int e = 0; e < ranked.size(); e++) {
      if (!alike(ranked.get(e), other.ranked.get(e))) {
        differences.add(String.format(Locale.ROOT, "rank %d", e + 1));
      }
    }
    return differences;
  }

  private static boolean alike(FamilyCentiles a, FamilyCentiles b) {
    return a.familyId().equals(b.familyId())
        && a.tests() == b.tests()
        && alike(a.level(), b.level())
        && alike(a.spreadPct(), b.spreadPct());
  }

  private static boolean alike(double[] a, double[] b) {
    boolean alike = a.length == b.length;
    for (int i = 0; alike && i < a.length; i++) {
      alike = Math.abs(a[i] - b[i]) <= ROUNDING * Math.max(1, Math.abs(a[i]));
    }
    return alike;
  }

  /** Engines that are equal but for rounding may stand in either order. */
  private static boolean alike(RankedEngine a, RankedEngine b) {
    return Math.abs(a.meanDeviation() - b.meanDeviation()) <= ROUNDING;
  }
}

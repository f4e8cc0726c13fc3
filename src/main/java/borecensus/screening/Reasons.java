package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.norms.FaultPosterior;
import borecensus.norms.Hypothesis;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Turns probabilities into reasons and suspect cylinders.
 *
 * <p>An engine more probably faulty than not has every fault of probability {@value #LISTED} or
 * more as a reason; a less probable one, if at least that probable, has its first fault only.
 */
final class Reasons {
  static final double LISTED = 0.15;
  static final double PROBABLE = 0.5;

  private static final List<Hypothesis> MECHANICAL =
      Arrays.stream(Hypothesis.values()).filter(Hypothesis::mechanical).toList();

  private Reasons() {}

  /** Mechanical faults, most probable first. */
  private static List<Hypothesis> ranked(FaultPosterior posterior) {
    List<Hypothesis> ranked = new ArrayList<>(MECHANICAL);
    ranked.sort(Comparator.comparingDouble((Hypothesis h) -> -posterior.probabilities().get(h)));
    return ranked;
  }

  /** The most probable mechanical fault, the first of several alike. */
  static Hypothesis first(FaultPosterior posterior) {
    Hypothesis first = MECHANICAL.get(0);
    double most = posterior.probabilities().get(first);
    for (Hypothesis h : MECHANICAL) {
      double p = posterior.probabilities().get(h);
      if (p > most) {
        first = h;
        most = p;
      }
    }
    return first;
  }

  /** Mechanical faults worth naming, most probable first. */
  static List<Hypothesis> named(FaultPosterior posterior) {
    double fault = posterior.faultProbability();
    // Most engines are sound: there is nothing to rank.
    if (fault < LISTED) {
      return List.of();
    }
    List<Hypothesis> ranked = ranked(posterior);
    if (fault < PROBABLE) {
      return ranked.subList(0, 1);
    }
    int listed = 1;
    while (listed < ranked.size() && posterior.probabilities().get(ranked.get(listed)) >= LISTED) {
      listed++;
    }
    return ranked.subList(0, listed);
  }

  static List<Reason> of(List<Hypothesis> named, CompressionTest last, Family family) {
    List<Reason> reasons = new ArrayList<>();
    named.forEach(hypothesis -> reasons.add(hypothesis.reason()));
    if (belowMakerLimit(last, family)) {
      reasons.add(Reason.BELOW_MAKER_LIMIT);
    }
    return reasons;
  }

  /** Readings at reference conditions against the maker's limits, where these are stated. */
  static boolean belowMakerLimit(CompressionTest last, Family family) {
    boolean below = false;
    for (double kpa : last.referenceKpa()) {
      below |= kpa < family.minKpa();
    }
    return below || LastTest.spreadPct(last.referenceKpa()) > family.maxSpreadPct();
  }

  /**
   * Cylinders more probably at fault than not, and at least as many of the most probable ones as
   * the first such reason speaks of; none when every reason is about the whole engine.
   */
  static List<Integer> suspects(List<Hypothesis> named, FaultPosterior posterior) {
    List<Double> p = posterior.cylinderProbabilities();
    int fewest = fewest(named);
    if (fewest == 0) {
      return List.of();
    }
    boolean[] suspect = new boolean[p.size()];
    for (int i = 0; i < Math.min(fewest, suspect.length); i++) {
      suspect[mostProbableBut(suspect, p)] = true;
    }
    List<Integer> suspects = new ArrayList<>();
    for (int c = 0; c < suspect.length; c++) {
      if (suspect[c] || p.get(c) > PROBABLE) {
        suspects.add(c + 1);
      }
    }
    return suspects;
  }

  /** The most probable of the others, the first of several alike. */
  private static int mostProbableBut(boolean[] chosen, List<Double> p) {
    int best = -1;
    for (int c = 0; c < chosen.length; c++) {
      if (!chosen[c] && (best < 0 || p.get(c) > p.get(best))) {
        best = c;
      }
    }
    return best;
  }

  /** How many cylinders the first reason about some cylinders speaks of; 0 when there is none. */
  private static int fewest(List<Hypothesis> named) {
    for (Hypothesis hypothesis : named) {
      if (hypothesis.ofSomeCylinders()) {
        return hypothesis == Hypothesis.LOW_ADJACENT_PAIR ? 2 : 1;
      }
    }
    return 0;
  }
}

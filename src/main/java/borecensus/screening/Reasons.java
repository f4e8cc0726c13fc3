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
import java.util.stream.IntStream;

/**
 * Turns probabilities into reasons and suspect cylinders.
 *
 * <p>An engine more probably faulty than not has every fault of probability {@value #LISTED} or
 * more as a reason; a less probable one, if at least that probable, has its first fault only.
 */
final class Reasons {
  static final double LISTED = 0.15;
  static final double PROBABLE = 0.5;

  private Reasons() {}

  /** Mechanical faults, most probable first. */
  static List<Hypothesis> ranked(FaultPosterior posterior) {
    return Arrays.stream(Hypothesis.values())
        .filter(Hypothesis::mechanical)
        .sorted(Comparator.comparingDouble((Hypothesis h) -> -posterior.probabilities().get(h)))
        .toList();
  }

  /** Mechanical faults worth naming, most probable first. */
  static List<Hypothesis> named(FaultPosterior posterior) {
    List<Hypothesis> ranked = ranked(posterior);
    double fault = posterior.faultProbability();
    if (fault < PROBABLE) {
      return fault < LISTED ? List.of() : ranked.subList(0, 1);
    }
    return IntStream.range(0, ranked.size())
        .filter(i -> i == 0 || posterior.probabilities().get(ranked.get(i)) >= LISTED)
        .mapToObj(ranked::get)
        .toList();
  }

  static List<Reason> of(List<Hypothesis> named, CompressionTest last, Family family) {
    List<Reason> reasons = new ArrayList<>(named.stream().map(Hypothesis::reason).toList());
    if (belowMakerLimit(last, family)) {
      reasons.add(Reason.BELOW_MAKER_LIMIT);
    }
    return reasons;
  }

  /** Readings at reference conditions against the maker's limits, where these are stated. */
  static boolean belowMakerLimit(CompressionTest last, Family family) {
    double lowest =
        Arrays.stream(last.referenceKpa()).filter(k -> !Double.isNaN(k)).min().orElse(Double.NaN);
    return lowest < family.minKpa()
        || LastTest.spreadPct(last.referenceKpa()) > family.maxSpreadPct();
  }

  /**
   * Cylinders more probably at fault than not, and at least as many of the most probable ones as
   * the first such reason speaks of; none when every reason is about the whole engine.
   */
  static List<Integer> suspects(List<Hypothesis> named, FaultPosterior posterior) {
    List<Double> p = posterior.cylinderProbabilities();
    int fewest =
        named.stream()
            .filter(Hypothesis::ofSomeCylinders)
            .findFirst()
            .map(h -> h == Hypothesis.LOW_ADJACENT_PAIR ? 2 : 1)
            .orElse(0);
    if (fewest == 0) {
      return List.of();
    }
    List<Integer> ranked =
        IntStream.range(0, p.size())
            .boxed()
            .sorted(Comparator.comparingDouble((Integer c) -> -p.get(c)))
            .toList();
    return IntStream.range(0, ranked.size())
        .filter(i -> i < fewest || p.get(ranked.get(i)) > PROBABLE)
        .mapToObj(i -> ranked.get(i) + 1)
        .sorted()
        .toList();
  }
}

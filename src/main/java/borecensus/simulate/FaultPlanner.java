package borecensus.simulate;

import borecensus.domain.Banks;
import borecensus.domain.Reason;
import borecensus.simulate.FaultPlan.Cause;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/** Draws the fault of an engine: kind, place, cause, severity and growth. */
final class FaultPlanner {
  private static final Set<Reason> PLANTABLE =
      EnumSet.of(
          Reason.LOW_CYLINDER,
          Reason.LOW_ADJACENT_PAIR,
          Reason.LOW_BANK,
          Reason.LOW_OVERALL,
          Reason.HIGH_CYLINDER,
          Reason.FALLING_CYLINDER,
          Reason.FALLING_LEVEL);

  /** The 97.5th centile of the normal distribution. */
  private static final double WIDE_Z = 1.96;

  /** A fall is judged over at least this many tests, two of them before it shows in full. */
  private static final int TESTS_FOR_A_FALL = 3;

  private FaultPlanner() {}

  static boolean canPlant(Reason reason) {
    return reason != null && PLANTABLE.contains(reason);
  }

  /**
   * Draws a fault that has grown to its full severity on the last of the given test days.
   *
   * @param testDays days on which the engine is tested, oldest first, at least one
   * @return empty when no kind of the scenario fits the engine
   */
  static Optional<FaultPlan> plan(
      FaultRates rates, FamilyPlan family, List<LocalDate> testDays, Draws draws) {
    List<FaultRates.Kind> fitting =
        rates.kinds().stream()
            .filter(k -> k.weight() > 0)
            .filter(k -> !k.falling() || testDays.size() >= TESTS_FOR_A_FALL)
            .filter(k -> fits(k.kind(), family.layout()))
            .toList();
    if (fitting.isEmpty()) {
      return Optional.empty();
    }
    FaultRates.Kind kind = draws.pick(fitting, FaultRates.Kind::weight);
    List<Integer> cylinders = cylinders(kind.kind(), family, draws);
    Cause cause = cause(kind.kind(), draws);
    return Optional.of(
        new FaultPlan(
            kind.kind(), cause, cylinders, growth(kind, testDays, draws), Optional.empty()));
  }

  private static boolean fits(Reason kind, Banks layout) {
    return switch (kind) {
      case LOW_BANK -> layout.banks().size() > 1;
      case LOW_ADJACENT_PAIR -> !layout.adjacentPairs().isEmpty();
      default -> true;
    };
  }

  private static List<Integer> cylinders(Reason kind, FamilyPlan family, Draws draws) {
    return switch (kind) {
      case LOW_BANK -> draws.pick(family.layout().banks());
      case LOW_ADJACENT_PAIR -> {
        Banks.Pair pair = draws.pick(family.layout().adjacentPairs());
        yield List.of(pair.first(), pair.second()).stream()
            .sorted(Comparator.naturalOrder())
            .toList();
      }
      case LOW_OVERALL, FALLING_LEVEL ->
          IntStream.rangeClosed(1, family.cylinders()).boxed().toList();
      default -> List.of(draws.whole(1, family.cylinders()));
    };
  }

  private static Cause cause(Reason kind, Draws draws) {
    return switch (kind) {
      case LOW_ADJACENT_PAIR -> Cause.HEAD_GASKET;
      case LOW_BANK -> Cause.TIMING;
      case HIGH_CYLINDER -> Cause.DEPOSITS;
      case FALLING_LEVEL -> Cause.RINGS_BORE;
      case LOW_OVERALL -> draws.chance(0.6) ? Cause.RINGS_BORE : Cause.TIMING;
      default -> draws.chance(0.5) ? Cause.RINGS_BORE : Cause.VALVE;
    };
  }

  private static FaultPlan.Growth growth(
      FaultRates.Kind kind, List<LocalDate> testDays, Draws draws) {
    LocalDate first = testDays.get(0);
    LocalDate last = testDays.get(testDays.size() - 1);
    boolean dead = draws.chance(kind.deadShare());
    double finalPct = dead ? 100 : severityPct(kind, draws);
    if (kind.falling()) {
      LocalDate onset = between(first.plusDays(1), last, draws.uniform(0, 0.4));
      return new FaultPlan.Growth(onset, last, 0, finalPct);
    }
    boolean present = testDays.size() == 1 || draws.chance(kind.presentAtFirstTestShare());
    LocalDate onset =
        present
            ? first.minusDays(draws.whole(20, 400))
            : between(first.plusDays(1), last, draws.uniform(0, 0.9));
    return new FaultPlan.Growth(onset, last, dead ? 1 : draws.uniform(0.6, 1), finalPct);
  }

  private static LocalDate between(LocalDate from, LocalDate to, double share) {
    return from.plusDays((long) (share * (to.toEpochDay() - from.toEpochDay())));
  }

  /** Log-normal about the median, with the farther end as its 97.5th centile, cut to the range. */
  private static double severityPct(FaultRates.Kind kind, Draws draws) {
    double widest = Math.max(kind.maxPct() / kind.medianPct(), kind.medianPct() / kind.minPct());
    double drawn = kind.medianPct() * Math.exp(draws.gaussian(Math.log(widest) / WIDE_Z));
    return Math.max(kind.minPct(), Math.min(kind.maxPct(), drawn));
  }
}

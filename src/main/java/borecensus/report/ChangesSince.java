package borecensus.report;

import java.time.LocalDate;
import java.util.List;

/**
 * What became of the marks since the night before. The lists are cut, the counts are not.
 *
 * @param before the date of that night; null when this is the first
 * @param fresh newly marked engines, by rank
 * @param worse engines that are worse, by rank
 * @param unchanged how many are marked as before
 * @param cleared engines that are no longer marked
 */
public record ChangesSince(
    LocalDate before,
    Counted<ListedEngine> fresh,
    Counted<ListedEngine> worse,
    long unchanged,
    Counted<Cleared> cleared) {

  /** The first of many. */
  public record Counted<T>(List<T> first, long inAll) {
    public Counted {
      first = List.copyOf(first);
    }

    /** None at all. */
    public static <T> Counted<T> none() {
      return new Counted<>(List.of(), 0);
    }
  }

  /** There is no night before. */
  public static ChangesSince firstNight() {
    return new ChangesSince(null, Counted.none(), Counted.none(), 0, Counted.none());
  }

  /**
   * An engine that was marked and is not any more.
   *
   * @param testedBefore its last test then; null when not known
   * @param testedNow its last test now; null without any
   * @param inService whether it still is
   * @param faultProbability now; NaN when it is not in service
   */
  public record Cleared(
      String vehicleId,
      LocalDate testedBefore,
      LocalDate testedNow,
      boolean inService,
      double faultProbability) {

    /** Why, as far as the two nights tell. */
    String because() {
      if (!inService) {
        return "the engine is no longer in service";
      }
      if (testedNow == null) {
        return "work was done on it; not tested since";
      }
      String now = ", fault probability now " + ShownText.probability(faultProbability);
      return testedBefore != null && testedNow.isAfter(testedBefore)
          ? "tested again on " + testedNow + now
          : "no newer test; the fleet’s norms or its marks have moved" + now;
    }
  }
}

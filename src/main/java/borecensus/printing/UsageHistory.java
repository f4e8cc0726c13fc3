package borecensus.printing;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;

/**
 * A vehicle's distance or hours on its first and its last sheet.
 *
 * @param firstOn null when no sheet tells any usage
 * @param first km or hours; NaN when no sheet tells any
 * @param lastOn null when no sheet tells any usage
 * @param last km or hours; NaN when no sheet tells any
 */
record UsageHistory(LocalDate firstOn, double first, LocalDate lastOn, double last) {

  static final UsageHistory NONE = new UsageHistory(null, Double.NaN, null, Double.NaN);

  /** Over fewer days than this a rate says nothing (common practice, no source). */
  private static final long FEWEST_DAYS = 30;

  /**
   * The usage to expect on a day: the last one, carried on at the mean rate between first and last
   * sheet. Without a rate, or on a day before the last sheet, the last one as it stands; NaN when
   * there is none.
   */
  double expectedOn(LocalDate day) {
    if (Double.isNaN(last)) {
      return Double.NaN;
    }
    long between = ChronoUnit.DAYS.between(firstOn, lastOn);
    long since = Math.max(0, ChronoUnit.DAYS.between(lastOn, day));
    double perDay = between < FEWEST_DAYS ? 0 : Math.max(0, (last - first) / between);
    return last + perDay * since;
  }

  /** How much it has probably been used since the last sheet; 0 when nothing tells. */
  double sinceLast(LocalDate day) {
    return Double.isNaN(last) ? 0 : expectedOn(day) - last;
  }
}

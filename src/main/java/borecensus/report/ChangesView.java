package borecensus.report;

import borecensus.report.ChangesSince.Cleared;
import borecensus.report.ChangesSince.Counted;
import borecensus.worklist.PlainNumbers;
import java.util.List;
import java.util.function.Function;

/**
 * What changed since the night before, as the template takes it.
 *
 * @param before empty on the first night
 */
record ChangesView(String before, List<Group> groups) {

  /**
   * Engines that changed alike.
   *
   * @param more how many are not named; empty when all are
   */
  record Group(String count, String label, List<Line> lines, String more) {}

  /** One engine; without a page when it is not in the list any more. */
  record Line(String vehicle, String page, String note) {}

  static ChangesView of(ChangesSince changes) {
    if (changes.before() == null) {
      return new ChangesView("", List.of());
    }
    return new ChangesView(
        changes.before().toString(),
        List.of(
            group("newly marked", changes.fresh(), ChangesView::listed),
            group("worse", changes.worse(), ChangesView::listed),
            group("no longer marked", changes.cleared(), ChangesView::cleared),
            new Group(ShownText.count(changes.unchanged()), "marked as before", List.of(), "")));
  }

  private static <T> Group group(String label, Counted<T> engines, Function<T, Line> line) {
    long hidden = engines.inAll() - engines.first().size();
    return new Group(
        ShownText.count(engines.inAll()),
        label,
        engines.first().stream().map(line).toList(),
        hidden == 0 ? "" : PlainNumbers.count(hidden, "more engine"));
  }

  private static Line listed(ListedEngine listed) {
    return new Line(
        ShownText.text(listed.entry().vehicleId()),
        listed.entry().rank() <= ReportLimits.ENGINES ? listed.page() : "",
        "rank " + listed.entry().rank());
  }

  private static Line cleared(Cleared cleared) {
    return new Line(ShownText.text(cleared.vehicleId()), "", cleared.because());
  }
}

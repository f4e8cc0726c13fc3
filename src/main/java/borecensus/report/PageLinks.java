package borecensus.report;

import java.util.List;
import java.util.stream.IntStream;

/** The row of links between the pages of the list; empty when there is one page only. */
final class PageLinks {
  private PageLinks() {}

  /**
   * A link to a page of the list.
   *
   * @param here whether it is the page on which it stands
   */
  record PageLink(String label, String href, boolean here) {}

  static List<PageLink> of(int page, long engines) {
    int pages = pages(engines);
    return pages < 2
        ? List.of()
        : IntStream.rangeClosed(1, pages)
            .mapToObj(n -> new PageLink(label(n, engines), PageNames.list(n), n == page))
            .toList();
  }

  /** How many pages a list of so many marked engines takes. */
  static int pages(long engines) {
    long listed = Math.min(engines, ReportLimits.ENGINES);
    int size = ReportLimits.ENGINES_ON_A_PAGE;
    return (int) Math.max(1, (listed + size - 1) / size);
  }

  private static String label(int page, long engines) {
    int size = ReportLimits.ENGINES_ON_A_PAGE;
    long last = Math.min(Math.min(engines, ReportLimits.ENGINES), (long) page * size);
    return ShownText.count((page - 1L) * size + 1) + " to " + ShownText.count(last);
  }
}

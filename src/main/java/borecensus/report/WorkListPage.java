package borecensus.report;

import borecensus.worklist.Cautions;
import java.util.List;

/** Renders the pages of the work list that follow the morning page. */
public final class WorkListPage {
  private final PageTemplate template = new PageTemplate("work-list");

  record View(
      String asOf,
      String runId,
      String version,
      String label,
      List<Cards.Card> lines,
      List<Section<PageLinks.PageLink>> pages,
      String advice,
      List<String> cautions) {}

  /** How many pages a list of so many marked engines takes, the morning page included. */
  public static int pages(long marked) {
    return PageLinks.pages(marked);
  }

  /** The engines of one page, from 1. */
  public static List<ListedEngine> of(int page, List<ListedEngine> listed) {
    int size = ReportLimits.ENGINES_ON_A_PAGE;
    int from = Math.min(listed.size(), (page - 1) * size);
    return listed.subList(from, Math.min(listed.size(), from + size));
  }

  /**
   * One page.
   *
   * @param page from 2
   * @param marked engines in all
   * @param engines those of this page
   */
  public String render(NightFrame night, int page, long marked, List<ListedEngine> engines) {
    List<PageLinks.PageLink> links = PageLinks.of(page, marked);
    return template.render(
        new View(
            night.asOf().toString(),
            ShownText.text(night.runId()),
            ShownText.text(night.softwareVersion()),
            links.get(page - 1).label(),
            engines.stream().map(Cards::of).toList(),
            Section.of(links.stream()),
            Cautions.ADVICE_ONLY,
            Cautions.ALL));
  }
}

package borecensus.report;

import borecensus.report.ReportData.PressureGlance;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.worklist.Cautions;
import borecensus.worklist.PlainNumbers;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** The morning page's data as the template takes it: text only, nothing left to compute. */
record ReportView(
    String asOf,
    String runId,
    String version,
    List<Tile> tiles,
    ChangesView changes,
    String advice,
    List<String> cautions,
    List<Section<Cards.Card>> cards,
    List<Section<PageLinks.PageLink>> pages,
    String more,
    InspectionsView inspections,
    List<Section<Lines.RepeatLine>> repeats,
    String moreRepeats,
    List<Section<Lines.StaleLine>> stale,
    String staleInAll,
    String neverTested,
    List<Lines.FamilyLine> families,
    String moreFamilies,
    String learnedBefore,
    List<Section<Lines.GaugeLine>> gauges,
    String moreGauges,
    String gaugesJudged,
    List<Section<Lines.RejectedLine>> rejected,
    String pressure,
    List<Section<Lines.SiteLine>> sites,
    List<Tile> run) {

  record Tile(String number, String label) {}

  static ReportView of(ReportData data) {
    List<GaugeGlance> suspects = data.gauges().stream().filter(GaugeGlance::toBeChecked).toList();
    return new ReportView(
        data.night().asOf().toString(),
        ShownText.text(data.night().runId()),
        ShownText.text(data.night().softwareVersion()),
        tiles(data.counts()),
        ChangesView.of(data.changes()),
        Cautions.ADVICE_ONLY,
        Cautions.ALL,
        Section.of(data.workList().stream().map(Cards::of)),
        Section.of(PageLinks.of(1, data.counts().marked()).stream()),
        more(data.counts().marked(), ReportLimits.ENGINES, "more engine"),
        InspectionsView.of(data.inspections()),
        Section.of(data.repeats().stream().map(Lines::repeat)),
        more(data.repeatsInAll(), data.repeats().size(), "more engine"),
        Section.of(data.staleness().oldest().stream().map(Lines::stale)),
        PlainNumbers.count(data.staleness().inAll(), "engine"),
        data.staleness().neverTested() == 0
            ? ""
            : PlainNumbers.count(data.staleness().neverTested(), "engine"),
        data.families().stream().map(Lines::family).toList(),
        more(data.familiesInAll(), data.families().size(), "more norm"),
        data.learnedBefore() == null ? "" : data.learnedBefore().toString(),
        Section.of(
            suspects.stream()
                .sorted(Comparator.comparingDouble(GaugeGlance::sizePct).reversed())
                .limit(ReportLimits.LINES)
                .map(Lines::gauge)),
        more(suspects.size(), ReportLimits.LINES, "more gauge"),
        PlainNumbers.count(data.gauges().size(), "gauge"),
        Section.of(
            data.rejected().stream()
                .sorted(Comparator.comparingLong(RejectedRows::rows).reversed())
                .map(Lines::rejected)),
        pressure(data.pressure()),
        Section.of(
            data.pressure().sites().stream().filter(SiteGlance::toBeChecked).map(Lines::site)),
        run(data.counts().rows()));
  }

  private static List<Tile> tiles(ReportData.Counts counts) {
    return List.of(
        new Tile(ShownText.count(counts.marked()), "engines to inspect"),
        new Tile(ShownText.count(counts.engines()), "engines screened"),
        new Tile(ShownText.count(counts.tests()), "tests on record"),
        new Tile(ShownText.count(counts.rows().rejected()), "rows refused"));
  }

  private static List<Tile> run(ReportData.Rows rows) {
    return List.of(
        new Tile(ShownText.count(rows.read()), "rows read"),
        new Tile(ShownText.count(rows.accepted()), "accepted"),
        new Tile(ShownText.count(rows.rejected()), "refused"),
        new Tile(ShownText.count(rows.superseded()), "superseded"));
  }

  private static String more(long inAll, long shown, String noun) {
    return inAll <= shown ? "" : PlainNumbers.count(inAll - shown, noun);
  }

  private static String pressure(PressureGlance check) {
    return check.rejected()
        ? String.format(
            Locale.ROOT,
            "The fleet’s readings do not follow ambient pressure: the exponent is %.2f (standard"
                + " error %.2f) where 1 is expected. Check the elevation of sites and what is"
                + " written as station pressure.",
            check.exponent(),
            check.standardError())
        : "";
  }
}

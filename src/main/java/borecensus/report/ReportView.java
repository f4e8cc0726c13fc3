package borecensus.report;

import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.PressureGlance;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.report.ReportData.StaleTest;
import borecensus.worklist.Cautions;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.TestToRepeat;
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
    List<Section<RepeatLine>> repeats,
    String moreRepeats,
    List<Section<StaleLine>> stale,
    String staleInAll,
    String neverTested,
    List<FamilyLine> families,
    String moreFamilies,
    List<Section<GaugeLine>> gauges,
    String gaugesJudged,
    List<Section<RejectedLine>> rejected,
    String pressure,
    List<Section<SiteLine>> sites,
    List<Tile> run) {

  record Tile(String number, String label) {}

  record RepeatLine(
      String vehicle,
      String family,
      String site,
      String tested,
      String gauge,
      String because,
      String next) {}

  record StaleLine(String vehicle, String family, String site, String tested) {}

  record FamilyLine(
      String family,
      String page,
      String engines,
      String tests,
      String middle,
      String median,
      String spread) {}

  record GaugeLine(String gauge, String tests, String offset, String error, String drift) {}

  record RejectedLine(String code, String rows, String meaning, String remedy) {}

  record SiteLine(String site, String tests, String residual, String error) {}

  static ReportView of(ReportData data) {
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
        Section.of(data.repeats().stream().map(ReportView::repeat)),
        more(data.repeatsInAll(), data.repeats().size(), "more engine"),
        Section.of(data.staleness().oldest().stream().map(ReportView::stale)),
        PlainNumbers.count(data.staleness().inAll(), "engine"),
        data.staleness().neverTested() == 0
            ? ""
            : PlainNumbers.count(data.staleness().neverTested(), "engine"),
        data.families().stream().map(ReportView::family).toList(),
        more(data.familiesInAll(), data.families().size(), "more norm"),
        Section.of(data.gauges().stream().filter(GaugeGlance::toBeChecked).map(ReportView::gauge)),
        PlainNumbers.count(data.gauges().size(), "gauge"),
        Section.of(
            data.rejected().stream()
                .sorted(Comparator.comparingLong(RejectedRows::rows).reversed())
                .map(ReportView::rejected)),
        pressure(data.pressure()),
        Section.of(
            data.pressure().sites().stream().filter(SiteGlance::toBeChecked).map(ReportView::site)),
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

  private static RepeatLine repeat(TestToRepeat repeat) {
    return new RepeatLine(
        ShownText.text(repeat.vehicleId()),
        ShownText.text(repeat.familyId()),
        ShownText.text(repeat.siteId()),
        repeat.testedOn().toString(),
        ShownText.text(repeat.gaugeId()),
        ShownText.text(repeat.because()),
        ShownText.text(repeat.nextStep()));
  }

  private static StaleLine stale(StaleTest stale) {
    return new StaleLine(
        ShownText.text(stale.vehicleId()),
        ShownText.text(stale.familyId()),
        ShownText.text(stale.siteId()),
        stale.testedOn().toString());
  }

  private static FamilyLine family(FamilyGlance glance) {
    boolean judged = !Double.isNaN(glance.medianKpa());
    return new FamilyLine(
        ShownText.text(glance.familyId()),
        PageNames.family(glance.familyId()),
        ShownText.count(glance.engines()),
        ShownText.count(glance.tests()),
        middle(glance.middle()),
        judged ? PlainNumbers.thousands(glance.medianKpa()) + " kPa" : "",
        Double.isNaN(glance.spreadP95Pct()) ? "–" : PlainNumbers.percent(glance.spreadP95Pct()));
  }

  private static String middle(Usage usage) {
    if (!Double.isNaN(usage.distanceKm())) {
      return PlainNumbers.thousands(usage.distanceKm()) + " km";
    }
    return Double.isNaN(usage.engineHours())
        ? "–"
        : PlainNumbers.thousands(usage.engineHours()) + " h";
  }

  private static GaugeLine gauge(GaugeGlance glance) {
    return new GaugeLine(
        ShownText.text(glance.gaugeId()),
        ShownText.count(glance.tests()),
        highOrLow(glance.offsetPct()),
        "± " + PlainNumbers.percent(glance.standardErrorPct()),
        drift(glance.drift()));
  }

  private static String drift(GaugeGlance.Drift drift) {
    return drift == null || !drift.toBeChecked()
        ? ""
        : "from %s (%s) to %s (%s)"
            .formatted(
                highOrLow(drift.from().offsetPct()),
                drift.from().from(),
                highOrLow(drift.to().offsetPct()),
                drift.to().from());
  }

  private static String highOrLow(double pct) {
    return PlainNumbers.percent(Math.abs(pct)) + (pct < 0 ? " low" : " high");
  }

  private static RejectedLine rejected(RejectedRows rows) {
    return new RejectedLine(
        rows.code().code(),
        ShownText.count(rows.rows()),
        rows.code().meaning(),
        rows.code().remedy());
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

  private static SiteLine site(SiteGlance site) {
    return new SiteLine(
        ShownText.text(site.siteId()),
        ShownText.count(site.tests()),
        highOrLow(site.residualPct()),
        "± " + PlainNumbers.percent(site.standardErrorPct()));
  }
}

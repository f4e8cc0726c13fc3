package borecensus.report;

import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.report.ReportData.StaleTest;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.TestToRepeat;

/** The lines of the morning page's tables: text only. */
final class Lines {
  private Lines() {}

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

  static RepeatLine repeat(TestToRepeat repeat) {
    return new RepeatLine(
        ShownText.text(repeat.vehicleId()),
        ShownText.text(repeat.familyId()),
        ShownText.text(repeat.siteId()),
        repeat.testedOn().toString(),
        ShownText.text(repeat.gaugeId()),
        ShownText.text(repeat.because()),
        ShownText.text(repeat.nextStep()));
  }

  static StaleLine stale(StaleTest stale) {
    return new StaleLine(
        ShownText.text(stale.vehicleId()),
        ShownText.text(stale.familyId()),
        ShownText.text(stale.siteId()),
        stale.testedOn().toString());
  }

  static FamilyLine family(FamilyGlance glance) {
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

  static GaugeLine gauge(GaugeGlance glance) {
    return new GaugeLine(
        ShownText.text(glance.gaugeId()),
        ShownText.count(glance.tests()),
        highOrLow(glance.offsetPct()),
        "± " + PlainNumbers.percent(glance.standardErrorPct()),
        drift(glance.drift()));
  }

  private static String drift(GaugeGlance.Drift drift) {
    return drift == null || !drift.toBeChecked()
        ? "–"
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

  static RejectedLine rejected(RejectedRows rows) {
    return new RejectedLine(
        rows.code().code(),
        ShownText.count(rows.rows()),
        rows.code().meaning(),
        rows.code().remedy());
  }

  static SiteLine site(SiteGlance site) {
    return new SiteLine(
        ShownText.text(site.siteId()),
        ShownText.count(site.tests()),
        highOrLow(site.residualPct()),
        "± " + PlainNumbers.percent(site.standardErrorPct()));
  }
}

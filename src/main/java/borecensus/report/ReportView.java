package borecensus.report;

import borecensus.domain.Reason;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.GaugeGlance;
import borecensus.report.ReportData.MarkedEngine;
import borecensus.report.ReportData.RejectedRows;
import borecensus.worklist.Cautions;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.util.List;
import java.util.stream.Stream;

/** The report's data as the template takes it: text only, nothing left to compute. */
record ReportView(
    String asOf,
    String runId,
    String version,
    List<Tile> tiles,
    String advice,
    List<String> cautions,
    List<Section<Card>> cards,
    String more,
    List<Section<RepeatLine>> repeats,
    String moreRepeats,
    List<FamilyLine> families,
    List<Section<GaugeLine>> gauges,
    String gaugesJudged,
    List<Section<RejectedLine>> rejected,
    String hatch) {

  /** Entries on the page; the others are in work_list.csv beside it. */
  static final int MAX_SHOWN = 200;

  static final int MAX_REPEATS = 100;

  /** Lines that come with a heading of their own, or, without lines, not at all. */
  record Section<T>(List<T> lines) {
    static <T> List<Section<T>> of(Stream<T> lines) {
      List<T> all = lines.toList();
      return all.isEmpty() ? List.of() : List.of(new Section<>(all));
    }
  }

  record Tile(String number, String label) {}

  record Card(
      String rank,
      String vehicle,
      String engine,
      String family,
      String site,
      String tested,
      String probability,
      String priority,
      String reason,
      String suspects,
      String strip,
      String evidence,
      String next) {}

  record RepeatLine(
      String vehicle,
      String family,
      String site,
      String tested,
      String gauge,
      String because,
      String next) {}

  record FamilyLine(
      String family, String engines, String tests, String middle, String median, String spread) {}

  record GaugeLine(String gauge, String tests, String offset, String error) {}

  record RejectedLine(String code, String rows, String meaning, String remedy) {}

  static ReportView of(ReportData data) {
    int hidden = Math.max(0, data.workList().size() - MAX_SHOWN);
    List<GaugeGlance> suspects = data.gauges().stream().filter(GaugeGlance::toBeChecked).toList();
    return new ReportView(
        data.asOf().toString(),
        ShownText.text(data.runId()),
        ShownText.text(data.softwareVersion()),
        tiles(data.counts()),
        Cautions.ADVICE_ONLY,
        Cautions.ALL,
        Section.of(data.workList().stream().limit(MAX_SHOWN).map(ReportView::card)),
        hidden == 0 ? "" : PlainNumbers.count(hidden, "more engine"),
        Section.of(data.repeats().stream().limit(MAX_REPEATS).map(ReportView::repeat)),
        moreRepeats(data.repeatsInAll()),
        data.families().stream().map(ReportView::family).toList(),
        Section.of(data.gauges().stream().filter(GaugeGlance::toBeChecked).map(ReportView::gauge)),
        PlainNumbers.count(data.gauges().size(), "gauge"),
        Section.of(data.rejected().stream().map(ReportView::rejected)),
        CylinderStrip.HATCH);
  }

  private static List<Tile> tiles(ReportData.Counts counts) {
    return List.of(
        new Tile(ShownText.count(counts.marked()), "engines to inspect"),
        new Tile(ShownText.count(counts.engines()), "engines screened"),
        new Tile(ShownText.count(counts.tests()), "tests on record"),
        new Tile(ShownText.count(counts.rejectedRows()), "rows refused"));
  }

  private static Card card(MarkedEngine marked) {
    WorkListEntry entry = marked.entry();
    return new Card(
        String.valueOf(entry.rank()),
        ShownText.text(entry.vehicleId()),
        ShownText.text(entry.engineId()),
        ShownText.text(entry.familyId()),
        ShownText.text(entry.siteId()),
        entry.lastTestedOn() == null ? "–" : entry.lastTestedOn().toString(),
        ShownText.probability(entry.faultProbability()),
        ShownText.oneDecimal(entry.priority()),
        capitalised(entry.mainReason().meaning()),
        suspects(entry),
        CylinderStrip.svg(marked.deviationPct(), entry.suspectCylinders()),
        ShownText.text(entry.evidence()),
        ShownText.text(entry.nextStep()));
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

  private static String moreRepeats(long inAll) {
    return inAll <= MAX_REPEATS ? "" : PlainNumbers.count(inAll - MAX_REPEATS, "more engine");
  }

  private static String capitalised(String words) {
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  /** Who is meant; empty when it is the measurement and not the engine. */
  private static String suspects(WorkListEntry entry) {
    List<Integer> cylinders = entry.suspectCylinders();
    if (cylinders.isEmpty()) {
      return entry.mainReason() == Reason.DOUBTFUL_MEASUREMENT ? "" : "whole engine";
    }
    String numbers = String.join(", ", cylinders.stream().map(String::valueOf).toList());
    return (cylinders.size() == 1 ? "cylinder " : "cylinders ") + numbers;
  }

  private static FamilyLine family(FamilyGlance glance) {
    boolean judged = !Double.isNaN(glance.medianKpa());
    return new FamilyLine(
        ShownText.text(glance.familyId()),
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
        PlainNumbers.percent(Math.abs(glance.offsetPct()))
            + (glance.offsetPct() < 0 ? " low" : " high"),
        "± " + PlainNumbers.percent(glance.standardErrorPct()));
  }

  private static RejectedLine rejected(RejectedRows rows) {
    return new RejectedLine(
        rows.code().code(),
        ShownText.count(rows.rows()),
        rows.code().meaning(),
        rows.code().remedy());
  }
}

package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Reason;
import borecensus.report.ChangesSince.Cleared;
import borecensus.report.ChangesSince.Counted;
import borecensus.report.ReportData.Counts;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.PressureGlance;
import borecensus.report.ReportData.Rows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.report.ReportData.StaleTest;
import borecensus.report.ReportData.Staleness;
import borecensus.worklist.Cautions;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Collections;
import java.util.List;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;

class ReportPageTest {

  private static final Path RENDERED = Path.of("target", "sample-report", "report", "index.html");

  @Test
  void theSamplePageIsTheSameTextEachTimeAndIsKeptForLooking() throws IOException {
    String page = ReportPage.render(SampleReport.data());

    Files.createDirectories(RENDERED.getParent());
    Files.writeString(RENDERED, page, StandardCharsets.UTF_8);

    assertEquals(page, ReportPage.render(SampleReport.data()));
    for (ListedEngine engine : SampleReport.engines()) {
      assertTrue(page.contains(engine.entry().vehicleId()));
      assertTrue(unescaped(page).contains(engine.entry().evidence()));
      assertTrue(unescaped(page).contains(engine.entry().nextStep()));
    }
    assertTrue(page.contains("As of <time datetime=\"2026-03-31\">2026-03-31</time>"));
    assertTrue(page.contains("<dd>4,812</dd>") && page.contains("<dd>61,377</dd>"));
  }

  @Test
  void thePageIsSound() {
    PageChecks.check(ReportPage.render(SampleReport.data()));
    PageChecks.check(ReportPage.render(SampleReport.with(many(250))));
  }

  @ParameterizedTest
  @MethodSource("borecensus.report.Hostile#names")
  void hostileNamesAppearAsText(String hostile) {
    String page = ReportPage.render(hostileData(hostile));
    String plain = ReportPage.render(hostileData("x"));

    assertTrue(unescaped(page).contains("<bdi>" + hostile + "</bdi>"), "the name is shown");
    PageChecks.check(page);
    assertEquals(withoutNames(plain), withoutNames(page), "the name adds no tag and no attribute");
  }

  private static ReportData hostileData(String text) {
    WorkListEntry entry =
        new WorkListEntry(
            1,
            text,
            text,
            text,
            1,
            0.5,
            Reason.LOW_CYLINDER,
            List.of(1),
            text,
            text,
            LocalDate.of(2026, 1, 1),
            text);
    LocalDate day = LocalDate.of(2026, 1, 1);
    ListedEngine listed =
        new ListedEngine(entry, List.of(-20.0, 1.0), 0.1, new LastFigures(1, 1, 1), MarkChange.NEW);
    return new ReportData(
        new NightFrame(day, text, text),
        new Counts(1, 1, 1, new Rows(1, 1, 0, 0)),
        new ChangesSince(
            day,
            new Counted<>(List.of(listed), 1),
            Counted.none(),
            0,
            new Counted<>(List.of(new Cleared(text, day, day, true, 0.1)), 1)),
        List.of(listed),
        List.of(new TestToRepeat(text, text, text, text, day, text, text, text)),
        1,
        new Staleness(List.of(new StaleTest(text, text, text, day)), 1, 0),
        List.of(new FamilyGlance(text, 1, 1, new Usage(1, 1), 900, 5)),
        1,
        day,
        List.of(new GaugeGlance(text, 9, 5, 1, null)),
        new PressureGlance(false, 1, 0.1, List.of(new SiteGlance(text, 9, -8, 1))),
        List.of(),
        SampleReport.inspections(text));
  }

  private static List<String> withoutNames(String page) {
    return PageChecks.tags(page).stream()
        .map(tag -> tag.replaceAll("(engines|families)/[a-z0-9-]+", "$1/"))
        .toList();
  }

  private static String unescaped(String page) {
    return PageChecks.unescaped(page);
  }

  @Test
  void charactersThatAreNotSeenAreMadeVisible() {
    String page = ReportPage.render(hostileData("V\u202E-1\u0000\u200B"));

    assertTrue(page.contains("<bdi>V\uFFFD-1\uFFFD\uFFFD</bdi>"));
  }

  @Test
  void aVeryLongNameIsCut() {
    String page = ReportPage.render(hostileData("N".repeat(100_000)));
    PageChecks.check(page);
    assertTrue(page.contains("<bdi>" + "N".repeat(600) + "…</bdi>"));
    assertTrue(page.length() < 60_000, "characters: " + page.length());
  }

  @Test
  void theListIsCutIntoPagesThatLinkToEachOther() {
    List<ListedEngine> listed = many(237);
    String first = ReportPage.render(SampleReport.with(listed));
    assertEquals(100, Pattern.compile("<li class=\"card\">").matcher(first).results().count());
    assertTrue(first.contains("<span aria-current=\"page\">1 to 100</span>"));
    assertTrue(first.contains("<a href=\"work-list-3.html\">201 to 237</a>"));

    NightFrame night = SampleReport.data().night();
    String last = new WorkListPage().render(night, 3, 237, WorkListPage.of(3, listed));
    PageChecks.check(last);
    assertEquals(37, Pattern.compile("<li class=\"card\">").matcher(last).results().count());
    assertTrue(last.contains("<a href=\"index.html\">1 to 100</a>"));
    assertEquals(3, WorkListPage.pages(237));
    assertEquals(1, WorkListPage.pages(0));
  }

  @Test
  void enginesBeyondTheListAreCountedAndLeftToTheSpreadsheet() {
    String page = ReportPage.render(withMarked(2_037));
    assertTrue(page.contains("37 more engines in <a href=\"../work_list.csv\">"));
    assertTrue(page.contains("<a href=\"work-list-20.html\">1,901 to 2,000</a>"));
    assertFalse(page.contains("work-list-21.html"));
    assertFalse(ReportPage.render(SampleReport.data()).contains("work_list.csv\">work"));
  }

  private static ReportData withMarked(long marked) {
    ReportData d = SampleReport.data();
    return new ReportData(
        d.night(),
        new Counts(9_000, 90_000, marked, d.counts().rows()),
        d.changes(),
        d.workList(),
        d.repeats(),
        d.repeatsInAll(),
        d.staleness(),
        d.families(),
        d.familiesInAll(),
        d.learnedBefore(),
        d.gauges(),
        d.pressure(),
        d.rejected(),
        d.inspections());
  }

  /** The largest morning page there can be, with long names, against the size that is stated. */
  @Test
  void theLargestMorningPageStaysBelowOneMegabyte() {
    ReportData d = SampleReport.with(many(2_000));
    ReportData full =
        new ReportData(
            d.night(),
            d.counts(),
            d.changes(),
            Collections.nCopies(100, SampleReport.engines().get(8)),
            Collections.nCopies(100, d.repeats().get(0)),
            900,
            new Staleness(Collections.nCopies(100, d.staleness().oldest().get(0)), 900, 1),
            Collections.nCopies(1_000, d.families().get(0)),
            5_000,
            d.learnedBefore(),
            d.gauges(),
            d.pressure(),
            d.rejected(),
            SampleReport.largestInspections());
    int bytes = ReportPage.render(full).getBytes(StandardCharsets.UTF_8).length;
    assertTrue(bytes < 1_000_000, "bytes: " + bytes);
  }

  @Test
  void normsOfALargeFleetSayHowOldTheyAre() {
    String page = ReportPage.render(SampleReport.data());
    assertTrue(page.contains("learned from tests made before 2026-02-15"));
  }

  @Test
  void whatChangedIsNamedAndLinked() {
    String page = ReportPage.render(SampleReport.data());
    ListedEngine fresh = SampleReport.engines().get(0);
    assertTrue(page.contains("Since the night of <time datetime=\"2026-03-30\">"));
    assertTrue(page.contains("<h3><b>2</b> newly marked</h3>"));
    assertTrue(page.contains("<h3><b>41</b> worse</h3>") && page.contains("40 more engines"));
    assertTrue(page.contains("<h3><b>1</b> no longer marked</h3>"));
    assertTrue(page.contains("<a href=\"" + fresh.page() + "\">"));
    assertTrue(page.contains("<span class=\"badge\">new</span>"));
    assertTrue(page.contains("tested again on 2026-03-30, fault probability now 2 %"));
  }

  /** Limits: Wilson (1927), in exact arithmetic; 7 of 9 gives 0.4526 to 0.9368. */
  @Test
  void hitRatesStandWithCountsAndLimitsAndThoseOfChosenEnginesAreCalledBiased() {
    String words = words(ReportPage.render(SampleReport.data()));
    assertTrue(
        words.contains("Marked on the day of the inspection 7 of 9 78 % 45 % to 94 %"), words);
    assertTrue(words.contains("Not marked, and drawn at random none inspected – –"));
    assertTrue(words.contains("Not marked, and chosen for another reason biased 1 of 4"));
    assertTrue(words.contains("One cylinder reads low against the others 7 of 9"));
    assertTrue(words.contains("VAN-2.0-P4 78 % 7 of 9, 45 % to 94 % – none inspected 25 % 1 of 4"));
    assertTrue(words.contains("they told nothing: 2 inspections."));
    assertTrue(words.contains("no fault cleared on 2026-02-20; not marked tonight"));
    assertTrue(
        words.contains("confirmed on 2026-03-02; no work on it is recorded; marked tonight"));
  }

  @Test
  void thePlanAndTheDrawAreNamedAndThePlanIsCountedInFull() {
    String page = ReportPage.render(SampleReport.data());
    String words = words(page);
    assertTrue(page.contains("<a href=\"../plan.csv\">plan.csv</a>"));
    assertTrue(words.contains("holds the whole plan of 200 engines"));
    assertTrue(words.contains("Never tested; probability of a fault by now about 0.20."));
    assertTrue(words.contains("next service 2026-04-12"));
    assertTrue(words.contains("Drawn for inspection in 2026-03"));
    assertTrue(words.contains("from 3,410 engines") && words.contains("by the end of 2026-05"));
  }

  private static String words(String page) {
    return unescaped(page).replaceAll("<[^>]*>|\\s+", " ").replaceAll(" +", " ").replace(" ,", ",");
  }

  @Test
  void gaugesThatDriftedAndPressureThatIsOffAreTold() {
    String page = ReportPage.render(SampleReport.data());
    assertTrue(page.contains("G-09/long"));
    assertTrue(page.contains("from 2.0 % low (2025-01-01) to 2.5 % high (2025-07-01)"), page);
    assertTrue(page.contains("the exponent is 0.81 (standard error 0.03) where 1 is expected"));
    assertTrue(page.contains("<bdi>summit</bdi>") && page.contains("9.6 % low"));
  }

  @Test
  void gaugesThatAreFurthestOffComeFirstAndTheirNumberIsBounded() {
    String page = ReportPage.render(SampleReport.data());
    String gauges = page.substring(page.indexOf("id=\"gauges\""));
    assertTrue(gauges.indexOf("G-09/long") < gauges.indexOf("G-07/hose-long"));
    assertTrue(gauges.indexOf("G-07/hose-long") < gauges.indexOf("G-11/short"));
    ReportData d = SampleReport.data();
    String crowded =
        ReportPage.render(
            new ReportData(
                d.night(),
                d.counts(),
                d.changes(),
                d.workList(),
                d.repeats(),
                d.repeatsInAll(),
                d.staleness(),
                d.families(),
                d.familiesInAll(),
                d.learnedBefore(),
                Collections.nCopies(140, d.gauges().get(0)),
                d.pressure(),
                d.rejected(),
                d.inspections()));
    assertTrue(crowded.contains("40 more gauges in the tables"));
  }

  @Test
  void codesThatRefuseMostRowsComeFirst() {
    String page = ReportPage.render(SampleReport.data());
    assertTrue(page.indexOf("unit_implausible") < page.indexOf("odometer_backwards"));
    assertTrue(page.indexOf("odometer_backwards") < page.indexOf("malformed_row"));
  }

  private static List<ListedEngine> many(int count) {
    return Collections.nCopies(count, SampleReport.engines().get(0));
  }

  @Test
  void anEmptyNightSaysSo() {
    ReportData empty =
        new ReportData(
            new NightFrame(LocalDate.of(2026, 1, 2), "r", "v"),
            new Counts(0, 0, 0, new Rows(0, 0, 0, 0)),
            ChangesSince.firstNight(),
            List.of(),
            List.of(),
            0,
            new Staleness(List.of(), 0, 0),
            List.of(),
            0,
            null,
            List.of(),
            new PressureGlance(false, Double.NaN, Double.NaN, List.of()),
            List.of(),
            new InspectionsGlance(
                List.of(),
                new InspectionsGlance.Draw(YearMonth.of(2026, 1), List.of()),
                new InspectionsGlance.Counted<>(List.of(), 0),
                new InspectionsGlance.Counted<>(List.of(), 0)));
    String page = ReportPage.render(empty);

    assertTrue(page.contains("No engine is marked tonight."));
    assertFalse(page.contains("learned anew once a month"));
    assertTrue(page.contains("Every engine’s last test can be believed."));
    assertTrue(page.contains("No family has a test yet."));
    assertTrue(page.contains("None of 0 gauges stands out."));
    assertTrue(page.contains("No row was refused."));
    assertTrue(page.contains("No inspection is on record."));
    assertTrue(page.contains("No engine could be drawn"));
    assertTrue(page.contains("No unmarked engine is in need of a test."));
    assertTrue(page.contains("This is the first night of this store"));
    assertTrue(page.contains("No last test is older than a year and a half."));
    assertTrue(page.contains("Nothing says that the readings do not follow ambient pressure."));
    PageChecks.check(page);
    assertFalse(page.contains("<table class=\"words\">"));
  }

  @Test
  void aTestToRepeatIsListedWithItsDoubtAndWhatToDo() {
    String page = ReportPage.render(SampleReport.data());
    for (TestToRepeat repeat : SampleReport.repeats()) {
      assertTrue(page.contains("<bdi>" + repeat.vehicleId() + "</bdi>"), repeat.vehicleId());
      assertTrue(unescaped(page).contains("<td>" + repeat.because() + " <span"), page);
      assertTrue(unescaped(page).contains("<td>" + repeat.nextStep() + "</td>"));
    }
    assertTrue(SampleReport.repeats().get(0).nextStep().contains("repeat the test"));
    assertFalse(page.contains("more engine: ask") || page.contains("more engines: ask"));
  }

  @Test
  void onlyTheFirstHundredTestsToRepeatAreShownAndTheRestIsCounted() {
    ReportData d = SampleReport.data();
    ReportData crowded =
        new ReportData(
            d.night(),
            d.counts(),
            d.changes(),
            d.workList(),
            Collections.nCopies(100, d.repeats().get(0)),
            131,
            d.staleness(),
            d.families(),
            d.familiesInAll(),
            d.learnedBefore(),
            d.gauges(),
            d.pressure(),
            d.rejected(),
            d.inspections());
    String page = ReportPage.render(crowded);
    assertEquals(100, page.split("<bdi>VAN-0417</bdi>", -1).length - 1);
    assertTrue(page.contains("31 more engines: ask"));
  }

  @Test
  void onlyGaugesThatAreOffForSureAndByMuchAreToBeChecked() {
    assertTrue(new GaugeGlance("g", 9, -2.1, 1.0, null).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 2.0, 0.1, null).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 5.0, 2.5, null).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 5.0, Double.NaN, null).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, Double.NaN, 1.0, null).toBeChecked());

    String page = ReportPage.render(SampleReport.data());
    assertTrue(page.contains("G-07/hose-long") && page.contains("4.2 % low"));
    assertFalse(page.contains("G-12/short") || page.contains("G-13/short"));
  }

  @Test
  void aFamilyThatIsTooSmallIsNotJudged() {
    String words = ReportPage.render(SampleReport.data()).replaceAll("<[^>]*>|\\s+", " ");

    assertTrue(words.replaceAll(" +", " ").contains("LOADER-3.3-D4 3 9 too small to judge"), words);
  }

  @Test
  void everyCautionAndTheRemedyOfEachRefusalStandOnThePage() {
    String page = unescaped(ReportPage.render(SampleReport.data()));
    for (String caution : Cautions.ALL) {
      assertTrue(page.contains(caution), caution);
    }
    assertTrue(page.contains(Cautions.ADVICE_ONLY));
    assertTrue(page.contains("Correct the gauge_id, or add the gauge to gauges.csv."));
  }

  @Test
  void theStripDrawsHatchedSuspectsCutsDeadOnesAndSpeaksItsNumbers() throws Exception {
    String svg = CylinderStrip.svg(List.of(-2.4, -97.8, Double.NaN, 31.0), List.of(2));
    Document document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));

    assertEquals(
        "Against expected, cylinder 1: −2 %; cylinder 2: −98 %, suspect; cylinder 3: not read;"
            + " cylinder 4: +31 %",
        document.getDocumentElement().getAttribute("aria-label"));
    assertEquals(3, document.getElementsByTagName("rect").getLength(), "no bar where not read");
    assertEquals(1, svg.split("class=\"bar suspect\"", -1).length - 1);
    assertEquals(2, svg.split("class=\"cut\"", -1).length - 1);
    assertEquals("", CylinderStrip.svg(List.of(), List.of(1)));
  }

  @Test
  void manyCylindersAreDrawnInLinesOfEqualLength() {
    String twelve = CylinderStrip.svg(Collections.nCopies(12, -3.0), List.of());

    assertTrue(twelve.contains("width=\"164\""), "six in a line: 2 x 4 + 6 x 26");
    assertEquals(2, twelve.split("class=\"base\"", -1).length - 1);
    assertEquals(
        1,
        CylinderStrip.svg(Collections.nCopies(8, -3.0), List.of())
                .split("class=\"base\"", -1)
                .length
            - 1);
  }

  @Test
  void probabilityNeverClaimsCertainty() {
    assertEquals("> 99 %", ShownText.probability(1));
    assertEquals("< 1 %", ShownText.probability(0));
    assertEquals("94 %", ShownText.probability(0.944));
    assertEquals("–", ShownText.probability(Double.NaN));
  }
}

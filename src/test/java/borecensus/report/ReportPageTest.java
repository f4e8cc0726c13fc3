package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Reason;
import borecensus.report.ReportData.Counts;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.GaugeGlance;
import borecensus.report.ReportData.MarkedEngine;
import borecensus.worklist.Cautions;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.LocalDate;
import java.util.Base64;
import java.util.Collections;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Document;

class ReportPageTest {

  private static final Path RENDERED = Path.of("target", "sample-report", "report", "index.html");

  @Test
  void theSamplePageIsTheSameTextEachTimeAndIsKeptForLooking() throws IOException {
    String page = ReportPage.render(SampleReport.data());

    Files.createDirectories(RENDERED.getParent());
    Files.writeString(RENDERED, page, StandardCharsets.UTF_8);

    assertEquals(page, ReportPage.render(SampleReport.data()));
    for (MarkedEngine engine : SampleReport.engines()) {
      assertTrue(page.contains(engine.entry().vehicleId()));
      assertTrue(unescaped(page).contains(engine.entry().evidence()));
      assertTrue(unescaped(page).contains(engine.entry().nextStep()));
    }
    assertTrue(page.contains("As of <time datetime=\"2026-03-31\">2026-03-31</time>"));
    assertTrue(page.contains("<dd>4,812</dd>") && page.contains("<dd>61,377</dd>"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "\"><img src=x onerror=alert(1)>",
        "' onmouseover='alert(1)",
        "=cmd|' /C calc'!A0",
        "{{advice}}",
        "{{{style}}}",
        "</style><style>*{display:none}</style>",
        "<!-- ",
        "&lt;b&gt;",
        "javascript:alert(1)"
      })
  void hostileNamesAppearAsText(String hostile) {
    String page = ReportPage.render(hostileData(hostile));
    String plain = ReportPage.render(hostileData("x"));

    assertTrue(unescaped(page).contains("<bdi>" + hostile + "</bdi>"), "the name is shown");
    assertEquals(tags(plain), tags(page), "the name adds no tag and no attribute");
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
    return new ReportData(
        LocalDate.of(2026, 1, 2),
        text,
        text,
        new Counts(1, 1, 1, 0),
        List.of(new MarkedEngine(entry, List.of(-20.0, 1.0))),
        List.of(
            new TestToRepeat(text, text, text, text, LocalDate.of(2026, 1, 1), text, text, text)),
        1,
        List.of(new FamilyGlance(text, 1, 1, new Usage(1, 1), 900, 5)),
        List.of(new GaugeGlance(text, 9, 5, 1)),
        List.of());
  }

  /** Every tag with its attributes, in order; escaped text holds none. */
  private static List<String> tags(String page) {
    return Pattern.compile("<[^>]*>").matcher(page).results().map(m -> m.group()).toList();
  }

  private static String unescaped(String page) {
    return page.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&#x27;", "'")
        .replace("&#61;", "=")
        .replace("&#96;", "`")
        .replace("&amp;", "&");
  }

  @Test
  void charactersThatAreNotSeenAreMadeVisible() {
    String page = ReportPage.render(hostileData("V\u202E-1\u0000\u200B"));

    assertTrue(page.contains("<bdi>V\uFFFD-1\uFFFD\uFFFD</bdi>"));
  }

  @Test
  void nothingOutsideThePageIsAskedFor() {
    String page = ReportPage.render(SampleReport.with(many(201)));

    Matcher addresses =
        Pattern.compile("(?i)\\b(?:src|href|action|data|srcset)\\s*=\\s*\"([^\"]*)").matcher(page);
    addresses
        .results()
        .forEach(
            m ->
                assertTrue(
                    m.group(1).startsWith("#") || m.group(1).equals("../work_list.csv"),
                    m.group()));
    assertFalse(
        page.contains("http:") || page.contains("https:") || page.contains("//"), "no address");
    assertFalse(page.contains("<script") || page.contains("@import"), "no script, no import");
    assertFalse(page.contains(" style=\""), "no inline style: the policy would drop it");
    assertEquals(
        List.of("url(#hatch)"),
        Pattern.compile("url\\([^)]*\\)")
            .matcher(page)
            .results()
            .map(m -> m.group())
            .distinct()
            .toList());
  }

  @Test
  void thePolicyNamesTheDigestOfTheStyleAndNothingElse() throws Exception {
    String page = ReportPage.render(SampleReport.data());
    String style = page.substring(page.indexOf("<style>") + 7, page.indexOf("</style>"));
    String digest =
        Base64.getEncoder()
            .encodeToString(
                MessageDigest.getInstance("SHA-256")
                    .digest(style.getBytes(StandardCharsets.UTF_8)));

    assertTrue(
        page.contains(
            "content=\"default-src 'none'; style-src 'sha256-"
                + digest
                + "'; base-uri 'none'; form-action 'none'\""));
  }

  @Test
  void onlyTheFirstTwoHundredAreShownAndTheRestIsCounted() {
    String page = ReportPage.render(SampleReport.with(many(237)));

    assertEquals(200, Pattern.compile("<li class=\"card\">").matcher(page).results().count());
    assertTrue(page.contains("37 more engines in <a href=\"../work_list.csv\">"));
    assertFalse(ReportPage.render(SampleReport.with(many(200))).contains("more engine"));
  }

  private static List<MarkedEngine> many(int count) {
    return Collections.nCopies(count, SampleReport.engines().get(0));
  }

  @Test
  void anEmptyNightSaysSo() {
    ReportData empty =
        new ReportData(
            LocalDate.of(2026, 1, 2),
            "r",
            "v",
            new Counts(0, 0, 0, 0),
            List.of(),
            List.of(),
            0,
            List.of(),
            List.of(),
            List.of());
    String page = ReportPage.render(empty);

    assertTrue(page.contains("No engine is marked tonight."));
    assertTrue(page.contains("Every engine’s last test can be believed."));
    assertTrue(page.contains("No family has a test yet."));
    assertTrue(page.contains("None of 0 gauges stands out."));
    assertTrue(page.contains("No row was refused."));
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
    assertFalse(page.contains("more engine"));
  }

  @Test
  void onlyTheFirstHundredTestsToRepeatAreShownAndTheRestIsCounted() {
    ReportData d = SampleReport.data();
    ReportData crowded =
        new ReportData(
            d.asOf(),
            d.runId(),
            d.softwareVersion(),
            d.counts(),
            d.workList(),
            Collections.nCopies(100, d.repeats().get(0)),
            131,
            d.families(),
            d.gauges(),
            d.rejected());
    String page = ReportPage.render(crowded);
    assertEquals(100, page.split("<bdi>VAN-0417</bdi>", -1).length - 1);
    assertTrue(page.contains("31 more engines: ask"));
  }

  @Test
  void onlyGaugesThatAreOffForSureAndByMuchAreToBeChecked() {
    assertTrue(new GaugeGlance("g", 9, -2.1, 1.0).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 2.0, 0.1).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 5.0, 2.5).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, 5.0, Double.NaN).toBeChecked());
    assertFalse(new GaugeGlance("g", 9, Double.NaN, 1.0).toBeChecked());

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

package borecensus.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Cause;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.norms.FleetPlan;
import borecensus.norms.FleetPlan.FamilyPlan;
import borecensus.norms.UsageAxis;
import borecensus.report.EngineStory.CylinderReading;
import borecensus.screening.CylinderDeviation;
import borecensus.worklist.Cautions;
import borecensus.worklist.LimitDistance;
import borecensus.worklist.LimitDistance.Limit;
import borecensus.worklist.NextSteps;
import borecensus.worklist.Outlook;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class EnginePageTest {
  private static final PagedFleet FLEET = new PagedFleet();

  private static String render(EnginePageData data) {
    return new EnginePage().render(data);
  }

  @Test
  void everyFaultyEngineHasASoundPageThatIsTheSameEachTime() {
    for (String engineId : FLEET.fleet.faults.keySet()) {
      EngineHistory history =
          FLEET.fleet.histories.stream()
              .filter(h -> h.engineId().equals(engineId))
              .findFirst()
              .orElseThrow();
      String page = render(FLEET.page(history));
      PageChecks.check(page);
      assertEquals(page, render(FLEET.page(history)));
      assertTrue(page.length() < 60_000, "characters: " + page.length());
    }
  }

  /** 2,000 such pages, and 1,000 of families, stay below the 200 MB that are stated. */
  @Test
  void theLargestEnginesWithLongHistoriesStayBelowTheStatedSize() {
    PagedFleet large =
        new PagedFleet(
            FleetPlan.of(60, 0.3)
                .withFamilies(List.of(new FamilyPlan("F16", 16, "1-8|9-16", 60, 0.02, 0)))
                .withMostTests(20));
    int largest =
        large.fleet.histories.stream()
            .mapToInt(h -> render(large.page(h)).getBytes(StandardCharsets.UTF_8).length)
            .max()
            .orElseThrow();
    assertTrue(largest < 70_000, "bytes: " + largest);
  }

  @Test
  void thePageSaysWhatWasSeenWhatToDoAndWhatNotToDo() {
    EngineHistory history = FLEET.faulty("F1");
    EnginePageData data = FLEET.page(history);
    String page = PageChecks.unescaped(render(data));
    assertTrue(page.contains(data.listed().entry().evidence()));
    for (String step :
        NextSteps.steps(
            data.listed().entry().mainReason(), FLEET.norms.family("F1").orElseThrow().family())) {
      assertTrue(page.contains("<li>" + step + "</li>"), step);
    }
    Cautions.ALL.forEach(caution -> assertTrue(page.contains(caution), caution));
    assertTrue(page.contains("None is on record for this family: look them up."));
    assertTrue(page.contains("about 8 % will turn out sound"));
  }

  @ParameterizedTest
  @MethodSource("borecensus.report.Hostile#names")
  void hostileNamesAppearAsText(String hostile) {
    EngineHistory history = FLEET.faulty("F3");
    String page = render(FLEET.page(history, hostile));
    PageChecks.check(page);
    assertTrue(PageChecks.unescaped(page).contains("<h1><bdi>" + hostile + "</bdi></h1>"));
    String plain = render(FLEET.page(history, "x"));
    assertEquals(
        withoutNames(PageChecks.tags(plain)),
        withoutNames(PageChecks.tags(page)),
        "the name adds no tag and no attribute");
  }

  private static List<String> withoutNames(List<String> tags) {
    return tags.stream().map(tag -> tag.replaceAll("families/[a-z0-9-]+", "families/")).toList();
  }

  /**
   * A healthy engine's readings are compared on the gauge's own scale: the expected values on the
   * page, brought back to reference conditions and with the gauge's offset taken out, are the
   * family's norm as the published table of readings has it.
   */
  @Test
  void whatIsExpectedOnTheGaugeIsTheNormThatTheTableOfReadingsHolds() {
    for (EngineHistory history : FLEET.fleet.histories.subList(0, 20)) {
      EngineStory story = EngineStory.of(history, FLEET.norms);
      List<CylinderDeviation> table = CylinderDeviation.of(story.lastTest(), history, FLEET.norms);
      double shift = FLEET.norms.measurementShiftLog(story.norm(), story.lastTest());
      for (CylinderReading reading : story.last()) {
        double reference =
            reading.expectedKpa() * 1013.25 / story.lastTest().ambientHpa() / Math.exp(shift);
        assertEquals(table.get(reading.cylinder() - 1).expectedKpa(), reference, 1e-6 * reference);
      }
    }
  }

  /**
   * The band is called the middle 90 %: so many readings of engines without a fault must lie in it.
   */
  @Test
  void nineInTenHealthyReadingsLieInTheBand() {
    int inside = 0;
    int all = 0;
    for (EngineHistory history : FLEET.fleet.histories) {
      if (!FLEET.fleet.faults.containsKey(history.engineId())) {
        for (CylinderReading r : EngineStory.of(history, FLEET.norms).last()) {
          all++;
          inside += r.readKpa() >= r.lowKpa() && r.readKpa() <= r.highKpa() ? 1 : 0;
        }
      }
    }
    // Some 108 engines; the cylinders of one share most of their scatter, so that the share varies
    // like that of 108 independent readings: a standard error of 3 points.
    assertEquals(0.9, (double) inside / all, 0.06, inside + " of " + all);
  }

  @Test
  void aTestInDoubtIsDrawnAndNamedAndIsNotTheLastBelievedOne() {
    EngineHistory history =
        FLEET.fleet.histories.stream().filter(h -> h.tests().size() > 3).findFirst().orElseThrow();
    var tests = new ArrayList<>(history.tests());
    int last = tests.size() - 1;
    tests.set(last, tests.get(last).withDoubts(List.of(Doubt.COPIED_READINGS)));
    EngineHistory doubted = history.withTests(tests);
    String page = render(FLEET.page(doubted));
    PageChecks.check(page);
    assertTrue(page.contains("<td>" + Doubt.COPIED_READINGS.meaning() + "</td>"));
    assertTrue(page.contains("Test " + tests.get(last - 1).testId() + " of"));
  }

  @Test
  void anEngineWithoutABelievedTestHasAPageToo() {
    EngineHistory history = FLEET.faulty("F2");
    EngineHistory doubted =
        history.withTests(
            history.tests().stream().map(t -> t.withDoubts(List.of(Doubt.COLD_ENGINE))).toList());
    EnginePageData data = FLEET.page(history);
    String page =
        render(
            new EnginePageData(
                data.night(), data.listed(), doubted, data.assessment(), data.norms(), ""));
    PageChecks.check(page);
    assertTrue(page.contains("No test is believed."));
  }

  @Test
  void thePageTellsLikelyCausesTheDistanceToTheLimitAndInspections() {
    EngineHistory history =
        FLEET
            .faulty("F1")
            .withFindings(
                List.of(
                    new Finding(
                        "v",
                        LocalDate.of(2001, 5, 6),
                        FindingResult.CONFIRMED,
                        Cause.HEAD_GASKET,
                        List.of(1, 2))));
    EnginePageData data = FLEET.page(history);
    Outlook outlook = data.listed().entry().outlook();
    String page = PageChecks.unescaped(render(data));
    PageChecks.check(page);
    String first = outlook.likelyCauses().get(0).meaning();
    String share = ShownText.probability(outlook.causeShares().get(0));
    assertTrue(
        page.contains(
            "<th scope=\"row\">%s</th><td class=\"n\">%s</td>"
                .formatted(ShownText.capitalised(first), share)));
    assertTrue(page.contains("tests below"), "the family states no minimum");
    assertTrue(page.contains("<th scope=\"row\">2001-05-06</th>"));
    assertTrue(page.contains("<td data-label=\"Cylinders\">1, 2</td>"));
    assertTrue(page.contains(data.listed().entry().nextStep()));
  }

  @Test
  void theDistanceToTheLimitIsToldInEveryCase() {
    assertEquals(
        "At its present pace it reaches the maker’s minimum in about 41,000 km. Nine in ten such"
            + " engines would reach it within 12,000 km to 180,000 km.",
        limit(41_234, 12_111, 183_000));
    assertEquals(
        "At its present pace it reaches the maker’s minimum in about 41,000 km. Nineteen in twenty"
            + " such engines have more than 12,000 km left; the tests set no upper end.",
        limit(41_234, 12_111, Double.NaN));
    assertEquals(
        "By the line through its tests it does not near the maker’s minimum. One in twenty such"
            + " engines would reach it within 90,000 km.",
        limit(Double.NaN, 90_400, Double.NaN));
    assertTrue(
        limit(0, 0, 0).startsWith("By the line through its tests it has reached the maker’s"));
    assertTrue(limit(0, 0, 5_020).endsWith("would still have 5,000 km or more to run."));
    assertTrue(
        LimitText.of(new LimitDistance(UsageAxis.HOURS, Limit.FAMILY_P01, 99.6, 9.6, 2_310), 4_000)
            .contains(
                "about 100 h. Nine in ten such engines would reach it within 10 h to 2,300 h."));
    assertTrue(LimitText.of(null, 1).startsWith("Not weighed"));
    assertTrue(
        LimitText.of(new LimitDistance(UsageAxis.KM, Limit.FAMILY_P01, 1, 1, 1), Double.NaN)
            .startsWith("Not known"));
  }

  private static String limit(double usage, double lower, double upper) {
    return LimitText.of(
        new LimitDistance(UsageAxis.KM, Limit.MAKER_MINIMUM, usage, lower, upper), 100_000);
  }
}

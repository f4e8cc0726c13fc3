package borecensus.report;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.domain.SheetKind;
import borecensus.norms.Hypothesis;
import borecensus.report.EngineStory.CylinderReading;
import borecensus.screening.Verdict;
import borecensus.worklist.Cautions;
import borecensus.worklist.NextSteps;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.WorkListEntry;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Renders the page of one marked engine. */
public final class EnginePage {
  private static final double WORTH_TELLING = 0.01;

  private final PageTemplate template = new PageTemplate("engine");

  record View(
      String asOf,
      String runId,
      String version,
      Head head,
      List<String> banks,
      boolean manyBanks,
      List<ReadingLine> readings,
      String where,
      String level,
      String cylinders,
      List<TestLine> tests,
      List<Share> shares,
      String sharesNote,
      OutlookView outlook,
      String nextStep,
      List<String> steps,
      String limits,
      String advice,
      List<String> cautions) {}

  record Head(
      String rank,
      String vehicle,
      String engine,
      String family,
      String familyPage,
      String site,
      String tested,
      String badge,
      String reason,
      String suspects,
      String evidence,
      String probability,
      String sure) {}

  record ReadingLine(
      String cylinder,
      String read,
      String expected,
      String band,
      String deviation,
      String reference,
      boolean suspect) {}

  record TestLine(String on, String usage, String gauge, String site, String level, String doubt) {}

  record Share(String what, String probability) {}

  /** The page; the same data give the same text. */
  public String render(EnginePageData data) {
    EngineStory story = EngineStory.of(data.history(), data.norms());
    WorkListEntry entry = data.listed().entry();
    EngineCharts charts = new EngineCharts(story, entry.suspectCylinders());
    Verdict verdict = data.assessment().verdict();
    List<String> banks = charts.banks();
    return template.render(
        new View(
            data.night().asOf().toString(),
            ShownText.text(data.night().runId()),
            ShownText.text(data.night().softwareVersion()),
            head(data),
            banks,
            banks.size() > 1,
            story.last().stream().map(r -> reading(r, entry.suspectCylinders())).toList(),
            where(story.lastTest()),
            charts.level(),
            charts.cylinders(),
            tests(data, story),
            shares(verdict),
            verdict.testsSinceDoubted() == 0
                ? "As the tests before the last one tell: the last one is to be repeated first."
                : "",
            OutlookView.of(entry.outlook(), data.history(), lastUsage(story)),
            ShownText.text(entry.nextStep()),
            NextSteps.steps(entry.mainReason(), story.norm().family()),
            limits(story.norm().family(), verdict),
            Cautions.ADVICE_ONLY,
            Cautions.ALL));
  }

  private static double lastUsage(EngineStory story) {
    return story.lastTest() == null ? Double.NaN : story.norm().axis().usageOf(story.lastTest());
  }

  private static Head head(EnginePageData data) {
    WorkListEntry entry = data.listed().entry();
    return new Head(
        String.valueOf(entry.rank()),
        ShownText.text(entry.vehicleId()),
        ShownText.text(entry.engineId()),
        ShownText.text(entry.familyId()),
        data.familyPage(),
        ShownText.text(entry.siteId()),
        entry.lastTestedOn() == null ? "–" : entry.lastTestedOn().toString(),
        data.listed().change().badge(),
        ShownText.capitalised(entry.mainReason().meaning()),
        ShownText.suspects(entry),
        ShownText.text(entry.evidence()),
        ShownText.probability(entry.faultProbability()),
        sure(data.listed()));
  }

  private static String sure(ListedEngine listed) {
    return "is the probability that the engine, not the measurement, is outside what healthy engines"
        + " of its family show. Of all engines at least as probable, "
        + (listed.qValue() < WORTH_TELLING
            ? "fewer than 1 in 100"
            : "about " + ShownText.probability(listed.qValue()))
        + " will turn out sound.";
  }

  private static ReadingLine reading(CylinderReading reading, List<Integer> suspects) {
    boolean read = !Double.isNaN(reading.readKpa());
    return new ReadingLine(
        String.valueOf(reading.cylinder()),
        read ? PlainNumbers.thousands(reading.readKpa()) : "not read",
        ShownText.whole(reading.expectedKpa()),
        ShownText.whole(reading.lowKpa()) + " to " + ShownText.whole(reading.highKpa()),
        ShownText.signedPct(reading.deviationPct()),
        ShownText.whole(reading.referenceKpa()),
        suspects.contains(reading.cylinder()));
  }

  private static String where(CompressionTest last) {
    if (last == null) {
      return "";
    }
    return String.format(
        Locale.ROOT,
        "Test %s of %s, gauge %s, site %s, ambient pressure %.0f hPa",
        ShownText.text(last.testId()),
        last.testedAt().toLocalDate(),
        ShownText.text(last.gaugeId()),
        ShownText.text(last.siteId()),
        last.ambientHpa());
  }

  private static List<TestLine> tests(EnginePageData data, EngineStory story) {
    List<CompressionTest> dry =
        data.history().tests().stream().filter(t -> t.kind() == SheetKind.DRY).toList();
    List<TestLine> lines = new ArrayList<>();
    int hidden = dry.size() - story.tests().size();
    for (int t = story.tests().size() - 1; t >= 0; t--) {
      CompressionTest test = dry.get(hidden + t);
      double usage = story.norm().axis().usageOf(test);
      List<String> doubts = test.doubts().stream().map(Doubt::meaning).toList();
      lines.add(
          new TestLine(
              test.testedAt().toLocalDate().toString(),
              ShownText.whole(usage),
              ShownText.text(test.gaugeId()),
              ShownText.text(test.siteId()),
              ShownText.whole(story.tests().get(t).levelKpa()),
              String.join("; ", doubts)));
    }
    return lines;
  }

  /** Everything that it may be, most probable first, and that it is nothing. */
  private static List<Share> shares(Verdict verdict) {
    List<Share> shares = new ArrayList<>();
    double rest = 1;
    for (Map.Entry<Hypothesis, Double> fault :
        verdict.probabilities().entrySet().stream()
            .sorted(
                Comparator.comparingDouble((Map.Entry<Hypothesis, Double> e) -> -e.getValue())
                    .thenComparing(Map.Entry::getKey))
            .toList()) {
      rest -= fault.getValue();
      if (fault.getValue() >= WORTH_TELLING) {
        shares.add(new Share(meaning(fault.getKey()), ShownText.probability(fault.getValue())));
      }
    }
    shares.add(
        new Share(
            "Nothing is wrong, and this is chance", ShownText.probability(Math.max(0, rest))));
    return shares;
  }

  private static String meaning(Hypothesis fault) {
    return fault == Hypothesis.DOUBTFUL_TEST
        ? "One test is off as a whole: the measurement, not the engine"
        : ShownText.capitalised(fault.reason().meaning());
  }

  private static String limits(Family family, Verdict verdict) {
    String stated = ShownText.limits(family);
    return verdict.reasons().contains(Reason.BELOW_MAKER_LIMIT)
        ? stated + "; " + Reason.BELOW_MAKER_LIMIT.meaning()
        : stated;
  }
}

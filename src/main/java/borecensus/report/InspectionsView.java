package borecensus.report;

import static borecensus.inspections.InspectionGroup.DRAWN_AT_RANDOM;
import static borecensus.inspections.InspectionGroup.MARKED;
import static borecensus.inspections.InspectionGroup.NOT_JUDGED;
import static borecensus.inspections.InspectionGroup.NOT_MARKED;

import borecensus.domain.Reason;
import borecensus.inspections.AuditDraw;
import borecensus.inspections.FindingRate;
import borecensus.report.InspectionsGlance.Draw;
import borecensus.report.InspectionsGlance.DrawnEngine;
import borecensus.report.InspectionsGlance.Inspected;
import borecensus.report.InspectionsGlance.PlannedTest;
import borecensus.worklist.PlainNumbers;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * What inspections have taught and what comes next, as the template takes it.
 *
 * @param untold inspections that told nothing; empty without any
 * @param drawnFor the month of the draw
 * @param countsUntil the last month in which an inspection answers the draw
 */
record InspectionsView(
    List<Section<GroupLine>> groups,
    List<Section<ReasonLine>> reasons,
    List<Section<FamilyLine>> families,
    String moreFamilies,
    String untold,
    List<Section<InspectedLine>> inspected,
    String moreInspected,
    String drawnFor,
    String drawnFrom,
    String countsUntil,
    List<Section<DrawnLine>> drawn,
    List<Section<PlanLine>> plan,
    String planInAll) {

  record GroupLine(String group, ToldRates.Told told, String bias) {}

  record ReasonLine(String reason, ToldRates.Told told) {}

  record FamilyLine(
      String family, ToldRates.Told marked, ToldRates.Told drawn, ToldRates.Told others) {}

  record InspectedLine(String vehicle, String family, String on, String found, String now) {}

  record DrawnLine(String vehicle, String engine, String family, String site, String tested) {}

  record PlanLine(
      String rank,
      String vehicle,
      String family,
      String site,
      String score,
      String tested,
      String service,
      String why) {}

  static InspectionsView of(InspectionsGlance glance) {
    ToldRates rates = new ToldRates(glance.rates());
    List<String> families = rates.families();
    Draw draw = glance.draw();
    long untold = rates.fleet().mapToLong(FindingRate::inconclusive).sum();
    return new InspectionsView(
        Section.of(groups(rates)),
        Section.of(reasons(rates)),
        Section.of(
            families.stream().limit(ReportLimits.RATED_FAMILIES).map(id -> family(id, rates))),
        more(families.size(), ReportLimits.RATED_FAMILIES, "more family", "more families"),
        untold == 0 ? "" : PlainNumbers.count(untold, "inspection"),
        Section.of(glance.inspected().first().stream().map(InspectionsView::inspected)),
        more(
            glance.inspected().inAll(),
            glance.inspected().first().size(),
            "more engine",
            "more engines"),
        draw.month().toString(),
        draw.engines().isEmpty() ? "" : ShownText.count(draw.engines().get(0).eligible()),
        draw.month().plusMonths(AuditDraw.MONTHS_TO_INSPECT - 1L).toString(),
        Section.of(draw.engines().stream().map(InspectionsView::drawn)),
        Section.of(glance.plan().first().stream().map(InspectionsView::planned)),
        PlainNumbers.count(glance.plan().inAll(), "engine"));
  }

  /** Marked beside drawn at random always, however few there are; the others where there are. */
  private static Stream<GroupLine> groups(ToldRates rates) {
    if (rates.fleet().findAny().isEmpty()) {
      return Stream.of();
    }
    return Stream.of(MARKED, DRAWN_AT_RANDOM, NOT_MARKED, NOT_JUDGED)
        .filter(g -> g == MARKED || g == DRAWN_AT_RANDOM || rates.has(g))
        .map(
            g ->
                new GroupLine(
                    ShownText.capitalised(g.meaning()),
                    rates.told(FindingRate.FLEET, g.code()),
                    g == NOT_MARKED || g == NOT_JUDGED ? "biased" : ""));
  }

  private static Stream<ReasonLine> reasons(ToldRates rates) {
    return Arrays.stream(Reason.values())
        .filter(reason -> rates.of(FindingRate.FLEET, reason.code()).inspected() > 0)
        .sorted(
            Comparator.comparingLong(
                reason -> -rates.of(FindingRate.FLEET, reason.code()).inspected()))
        .map(
            reason ->
                new ReasonLine(
                    ShownText.capitalised(reason.meaning()),
                    rates.told(FindingRate.FLEET, reason.code())));
  }

  private static FamilyLine family(String familyId, ToldRates rates) {
    return new FamilyLine(
        ShownText.text(familyId),
        rates.told(familyId, MARKED.code()),
        rates.told(familyId, DRAWN_AT_RANDOM.code()),
        rates.told(familyId, NOT_MARKED.code()));
  }

  private static InspectedLine inspected(Inspected engine) {
    return new InspectedLine(
        ShownText.text(engine.vehicleId()),
        ShownText.text(engine.familyId()),
        engine.inspectedOn().toString(),
        engine.foundFault() ? "a fault, confirmed" : "no fault",
        (engine.clearedOn() == null
                ? "confirmed on " + engine.inspectedOn() + "; no work on it is recorded"
                : "cleared on " + engine.clearedOn())
            + (engine.marked() ? "; marked tonight" : "; not marked tonight"));
  }

  private static DrawnLine drawn(DrawnEngine engine) {
    return new DrawnLine(
        ShownText.text(engine.vehicleId()),
        ShownText.text(engine.engineId()),
        ShownText.text(engine.familyId()),
        ShownText.text(engine.siteId()),
        String.valueOf(engine.lastTestedOn()));
  }

  private static PlanLine planned(PlannedTest test) {
    return new PlanLine(
        String.valueOf(test.rank()),
        ShownText.text(test.vehicleId()),
        ShownText.text(test.familyId()),
        ShownText.text(test.siteId()),
        ShownText.whole(test.score()),
        test.lastTestedOn() == null ? "never" : test.lastTestedOn().toString(),
        test.nextServiceOn() == null ? "" : test.nextServiceOn().toString(),
        ShownText.text(test.why()));
  }

  private static String more(long inAll, long shown, String one, String many) {
    long hidden = inAll - shown;
    return hidden <= 0 ? "" : ShownText.count(hidden) + " " + (hidden == 1 ? one : many);
  }
}

package borecensus.report;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.norms.FleetPlan;
import borecensus.norms.NormEstimator;
import borecensus.norms.Priors;
import borecensus.norms.RandomFleet;
import borecensus.screening.EngineAssessment;
import borecensus.screening.Screening;
import borecensus.worklist.EngineBrief;
import borecensus.worklist.Outlook;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.util.List;

/** A drawn fleet with its norms, and pages of it; its engines may be renamed. */
final class PagedFleet {
  static final NightFrame NIGHT = new NightFrame(LocalDate.of(2026, 3, 31), "run", "0.1.0");

  final RandomFleet fleet;
  final FleetNorms norms;

  PagedFleet() {
    this(FleetPlan.of(120, 0.1));
  }

  PagedFleet(FleetPlan plan) {
    fleet = new RandomFleet(plan, 5);
    norms = NormEstimator.estimate(fleet.histories, fleet.families, fleet.gauges, Priors.load());
  }

  /** The first engine of a family that has a planted fault. */
  EngineHistory faulty(String familyId) {
    return fleet.histories.stream()
        .filter(h -> h.familyId().equals(familyId) && fleet.faults.containsKey(h.engineId()))
        .findFirst()
        .orElseThrow();
  }

  EnginePageData page(EngineHistory history) {
    return page(history, history.vehicleId());
  }

  /** The page of an engine under another name, which then stands in every text about it. */
  EnginePageData page(EngineHistory history, String name) {
    EngineAssessment assessment = Screening.assess(history, norms);
    return new EnginePageData(
        NIGHT, listed(history, name), history, assessment, norms, PageNames.family(name));
  }

  ListedEngine listed(EngineHistory history, String name) {
    EngineAssessment assessment = Screening.assess(history, norms);
    EngineBrief brief = EngineBrief.of(history, assessment, norms);
    WorkListEntry entry = brief.entry();
    return new ListedEngine(
        new WorkListEntry(
            3,
            name,
            name,
            name,
            entry.priority(),
            entry.faultProbability(),
            entry.mainReason(),
            entry.suspectCylinders(),
            name.equals(history.vehicleId()) ? entry.evidence() : name,
            name.equals(history.vehicleId()) ? entry.nextStep() : name,
            entry.lastTestedOn(),
            name,
            outlook(entry.outlook(), name.equals(history.vehicleId()) ? "" : name)),
        brief.deviationPct(),
        0.08,
        new LastFigures(
            assessment.lastTest().usage(),
            assessment.lastTest().levelPct(),
            assessment.lastTest().spreadPct()),
        MarkChange.NEW);
  }

  private static Outlook outlook(Outlook outlook, String evidence) {
    return new Outlook(
        outlook.likelyCauses(),
        outlook.causeShares(),
        outlook.causeEvidence() + evidence,
        outlook.toLimit(),
        outlook.expectedSaving());
  }

  FamilyPageData family(String familyId, String markedName) {
    List<LastFigures> peers =
        fleet.histories.stream()
            .filter(h -> h.familyId().equals(familyId))
            .map(h -> Screening.assess(h, norms).lastTest())
            .map(t -> new LastFigures(t.usage(), t.levelPct(), t.spreadPct()))
            .toList();
    return new FamilyPageData(
        NIGHT,
        norms.family(familyId).orElseThrow(),
        peers,
        List.of(listed(faulty(familyId), markedName)));
  }
}

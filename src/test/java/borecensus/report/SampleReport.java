package borecensus.report;

import borecensus.domain.Banks;
import borecensus.domain.Doubt;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Reason;
import borecensus.domain.RowCode;
import borecensus.domain.WetTest;
import borecensus.inspections.FindingRate;
import borecensus.inspections.InspectionGroup;
import borecensus.norms.GaugeOffset;
import borecensus.norms.GaugePeriod;
import borecensus.report.ChangesSince.Cleared;
import borecensus.report.ChangesSince.Counted;
import borecensus.report.ReportData.Counts;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.PressureGlance;
import borecensus.report.ReportData.RejectedRows;
import borecensus.report.ReportData.Rows;
import borecensus.report.ReportData.SiteGlance;
import borecensus.report.ReportData.StaleTest;
import borecensus.report.ReportData.Staleness;
import borecensus.worklist.Evidence;
import borecensus.worklist.EvidenceInput;
import borecensus.worklist.EvidenceInput.Measure;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.NextSteps;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Invented data: one engine per reason, families large and small, gauges good and bad. */
final class SampleReport {
  private SampleReport() {}

  private static final LocalDate NIGHT = LocalDate.of(2026, 3, 31);
  private static final double NAN = Double.NaN;

  static ReportData data() {
    return with(engines());
  }

  static ReportData with(List<ListedEngine> workList) {
    return new ReportData(
        new NightFrame(NIGHT, "2026-03-31T0215", "0.1.0"),
        new Counts(4_812, 61_377, workList.size(), new Rows(61_600, 61_377, 143, 80)),
        changes(),
        WorkListPage.of(1, workList),
        repeats(),
        repeats().size(),
        new Staleness(
            List.of(new StaleTest("BUS-77", "VAN-2.0-P4", "harbour", NIGHT.minusDays(700))), 1, 3),
        List.of(
            new FamilyGlance("VAN-2.0-P4", 212, 3_904, new Usage(140_000, NAN), 1105.4, 7.1),
            new FamilyGlance("TRUCK-7.7-D6", 1_870, 22_410, new Usage(420_000, NAN), 2710, 9.84),
            new FamilyGlance("GENSET-12.8-D12", 96, 1_210, new Usage(NAN, 8_400), 2655, 11.2),
            new FamilyGlance("LOADER-3.3-D4", 3, 9, new Usage(NAN, 2_100), NAN, NAN)),
        5,
        LocalDate.of(2026, 2, 15),
        List.of(
            new GaugeGlance("G-07/hose-long", 318, -4.2, 0.6, null),
            new GaugeGlance("G-11/short", 75, 2.9, 0.9, null),
            drifting(),
            new GaugeGlance("G-12/short", 75, 1.9, 0.1, null),
            new GaugeGlance("G-13/short", 2, 5.0, 3.1, null)),
        new PressureGlance(
            true,
            0.81,
            0.03,
            List.of(
                new SiteGlance("summit", 212, -9.6, 1.4),
                new SiteGlance("harbour", 800, 0.4, 0.3))),
        List.of(
            new RejectedRows(RowCode.UNIT_IMPLAUSIBLE, 71),
            new RejectedRows(RowCode.ODOMETER_BACKWARDS, 52),
            new RejectedRows(RowCode.UNKNOWN_GAUGE, 19),
            new RejectedRows(RowCode.MALFORMED_ROW, 1)),
        inspections("VAN-2.0-P4"));
  }

  /** Inspections of one family, whose name also stands for every vehicle. */
  static InspectionsGlance inspections(String name) {
    List<FindingRate> rates =
        FindingRate.of(
            List.of(
                count(name, InspectionGroup.MARKED, "low_cylinder", true, 7),
                count(name, InspectionGroup.MARKED, "low_cylinder", false, 2),
                count(name, InspectionGroup.MARKED, "low_cylinder", null, 2),
                count(name, InspectionGroup.NOT_MARKED, "", true, 1),
                count(name, InspectionGroup.NOT_MARKED, "", false, 3)));
    LocalDate cleared = LocalDate.of(2026, 2, 20);
    LocalDate confirmed = LocalDate.of(2026, 3, 2);
    String why = "Never tested; probability of a fault by now about 0.20.";
    return new InspectionsGlance(
        rates,
        new InspectionsGlance.Draw(
            YearMonth.from(NIGHT),
            List.of(
                new InspectionsGlance.DrawnEngine(
                    name, name, name, name, NIGHT.minusDays(40), 3_410))),
        new InspectionsGlance.Counted<>(
            List.of(
                new InspectionsGlance.PlannedTest(
                    1, name, name, name, 87.2, why, null, LocalDate.of(2026, 4, 12))),
            200),
        new InspectionsGlance.Counted<>(
            List.of(
                new InspectionsGlance.Inspected(name, name, name, confirmed, true, null, true),
                new InspectionsGlance.Inspected(name, name, name, cleared, false, cleared, false)),
            2));
  }

  private static FindingRate.Count count(
      String family, InspectionGroup group, String reason, Boolean fault, long inspections) {
    return new FindingRate.Count(family, group, reason, fault, inspections);
  }

  /** As long as the lists may become. */
  static InspectionsGlance largestInspections() {
    InspectionsGlance one = inspections("VAN-2.0-P4");
    List<FindingRate> rates = new ArrayList<>();
    for (int f = 0; f < 1_000; f++) {
      rates.addAll(
          FindingRate.of(
              List.of(
                  count("VAN-2.0-P4-" + f, InspectionGroup.MARKED, "low_cylinder", true, 700))));
      rates.removeIf(rate -> rate.familyId().equals(FindingRate.FLEET));
    }
    return new InspectionsGlance(
        rates,
        new InspectionsGlance.Draw(
            one.draw().month(), Collections.nCopies(5, one.draw().engines().get(0))),
        new InspectionsGlance.Counted<>(
            Collections.nCopies(ReportLimits.PLANNED, one.plan().first().get(0)), 200),
        new InspectionsGlance.Counted<>(
            Collections.nCopies(ReportLimits.INSPECTED, one.inspected().first().get(0)), 9_000));
  }

  static ChangesSince changes() {
    List<ListedEngine> engines = engines();
    return new ChangesSince(
        NIGHT.minusDays(1),
        new Counted<>(engines.subList(0, 2), 2),
        new Counted<>(engines.subList(2, 3), 41),
        5,
        new Counted<>(
            List.of(new Cleared("VAN-0099", NIGHT.minusDays(90), NIGHT.minusDays(1), true, 0.02)),
            1));
  }

  private static GaugeGlance drifting() {
    LocalDate spring = LocalDate.of(2025, 1, 1);
    LocalDate autumn = LocalDate.of(2025, 7, 1);
    return GaugeGlance.of(
        new GaugeOffset(
            "G-09/long",
            0.001,
            0.004,
            90,
            10,
            List.of(
                new GaugePeriod(spring, autumn.minusDays(1), -0.02, 0.006, 45),
                new GaugePeriod(autumn, spring.plusYears(1).minusDays(1), 0.025, 0.006, 45))));
  }

  static List<TestToRepeat> repeats() {
    return List.of(
        new TestToRepeat(
            "VAN-0417",
            "VAN-0417-E1",
            "VAN-2.0-P4",
            "north-yard",
            LocalDate.of(2026, 3, 28),
            "G-07/hose-long",
            "All cylinders read 13 % lower than expected of a healthy engine, and no earlier test of"
                + " this engine did.",
            NextSteps.nextStep(Reason.DOUBTFUL_MEASUREMENT, family())),
        new TestToRepeat(
            "TRUCK-1180",
            "TRUCK-1180-E2",
            "TRUCK-7.7-D6",
            "harbour",
            LocalDate.of(2026, 2, 11),
            "G-11/short",
            "Everything tested that day with this gauge read low together.",
            Doubt.LOW_TOGETHER.remedy()));
  }

  static List<ListedEngine> engines() {
    List<ListedEngine> engines = new ArrayList<>();
    engines.add(
        engine(
            1,
            Reason.LOW_CYLINDER,
            List.of(5),
            Measure.kpa(60, 2690),
            List.of(-1.2, 0.4, 1.8, -2.6, -97.8, 0.9)));
    engines.add(
        engine(
            2,
            Reason.LOW_ADJACENT_PAIR,
            List.of(3, 4),
            Measure.kpa(741, 1105),
            List.of(-1.0, 0.8, -34.0, -31.9)));
    engines.add(
        engine(
            3,
            Reason.LOW_BANK,
            List.of(7, 8, 9, 10, 11, 12),
            Measure.kpa(2380, 2655),
            List.of(1.0, 0.2, 2.1, -0.6, 1.4, NAN, -9.8, -10.4, -11.7, -10.1, -9.2, -11.0)));
    engines.add(
        engine(
            4,
            Reason.LOW_OVERALL,
            List.of(),
            Measure.kpa(930, 1105),
            List.of(-15.1, -16.3, -14.8, -17.0)));
    engines.add(
        engine(
            5,
            Reason.FALLING_CYLINDER,
            List.of(2),
            Measure.changePct(-11.2, -1.3),
            List.of(0.5, -12.4, 1.1, 0.2)));
    engines.add(
        engine(
            6,
            Reason.HIGH_CYLINDER,
            List.of(1),
            Measure.kpa(1391, 1105),
            List.of(25.9, 1.2, -0.4, 0.3)));
    engines.add(
        engine(
            7,
            Reason.BELOW_MAKER_LIMIT,
            List.of(4),
            Measure.spreadPct(27, 25),
            List.of(0.5, 2.0, 1.1, -25.0)));
    engines.add(
        engine(8, Reason.FALLING_LEVEL, List.of(), Measure.changePct(-6.4, -0.9), List.of()));
    engines.add(
        engine(
            9,
            Reason.DOUBTFUL_MEASUREMENT,
            List.of(),
            Measure.kpa(NAN, NAN),
            List.of(
                3.0, 4.1, 1.1, 2.2, 0.1, 0.0, -1.0, -2.0, 3.0, 4.1, 1.1, 2.2, 0.1, 0.0, -1.0,
                -2.0)));
    return engines;
  }

  private static Family family() {
    return new Family(
        "VAN-2.0-P4", Fuel.PETROL, 4, Banks.inLine(4), NAN, NAN, NAN, NAN, WetTest.ALLOWED);
  }

  private static ListedEngine engine(
      int rank, Reason reason, List<Integer> suspects, Measure measure, List<Double> deviations) {
    String evidence =
        Evidence.sentence(
            new EvidenceInput(
                reason,
                suspects,
                measure,
                Math.pow(10, -7 + rank / 2.0),
                new Usage(143_000, NAN),
                List.of(Doubt.COPIED_READINGS),
                rank,
                212));
    WorkListEntry entry =
        new WorkListEntry(
            rank,
            "BUS-" + (4100 + 37 * rank),
            "E-" + (88_000 + 991 * rank),
            "VAN-2.0-P4",
            92.4 / rank,
            1 - 0.004 * Math.pow(rank, 2.2),
            reason,
            suspects,
            evidence,
            NextSteps.nextStep(reason, family()),
            NIGHT.minusDays(rank),
            "DEPOT-NORTH");
    return new ListedEngine(
        entry,
        deviations,
        0.02 * rank,
        new LastFigures(143_000, -4, 6),
        rank < 3 ? MarkChange.NEW : rank == 3 ? MarkChange.WORSE : MarkChange.UNCHANGED);
  }
}

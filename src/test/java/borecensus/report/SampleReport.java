package borecensus.report;

import borecensus.domain.Banks;
import borecensus.domain.Doubt;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Reason;
import borecensus.domain.RowCode;
import borecensus.domain.WetTest;
import borecensus.report.ReportData.Counts;
import borecensus.report.ReportData.FamilyGlance;
import borecensus.report.ReportData.GaugeGlance;
import borecensus.report.ReportData.MarkedEngine;
import borecensus.report.ReportData.RejectedRows;
import borecensus.worklist.Evidence;
import borecensus.worklist.EvidenceInput;
import borecensus.worklist.EvidenceInput.Measure;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.NextSteps;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** Invented data: one engine per reason, families large and small, gauges good and bad. */
final class SampleReport {
  private SampleReport() {}

  private static final LocalDate NIGHT = LocalDate.of(2026, 3, 31);
  private static final double NAN = Double.NaN;

  static ReportData data() {
    return with(engines());
  }

  static ReportData with(List<MarkedEngine> workList) {
    return new ReportData(
        NIGHT,
        "2026-03-31T0215",
        "0.1.0",
        new Counts(4_812, 61_377, workList.size(), 143),
        workList,
        repeats(),
        repeats().size(),
        List.of(
            new FamilyGlance("VAN-2.0-P4", 212, 3_904, new Usage(140_000, NAN), 1105.4, 7.1),
            new FamilyGlance("TRUCK-7.7-D6", 1_870, 22_410, new Usage(420_000, NAN), 2710, 9.84),
            new FamilyGlance("GENSET-12.8-D12", 96, 1_210, new Usage(NAN, 8_400), 2655, 11.2),
            new FamilyGlance("LOADER-3.3-D4", 3, 9, new Usage(NAN, 2_100), NAN, NAN)),
        List.of(
            new GaugeGlance("G-07/hose-long", 318, -4.2, 0.6),
            new GaugeGlance("G-11/short", 75, 2.9, 0.9),
            new GaugeGlance("G-12/short", 75, 1.9, 0.1),
            new GaugeGlance("G-13/short", 2, 5.0, 3.1)),
        List.of(
            new RejectedRows(RowCode.UNIT_IMPLAUSIBLE, 71),
            new RejectedRows(RowCode.ODOMETER_BACKWARDS, 52),
            new RejectedRows(RowCode.UNKNOWN_GAUGE, 19),
            new RejectedRows(RowCode.MALFORMED_ROW, 1)));
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

  static List<MarkedEngine> engines() {
    List<MarkedEngine> engines = new ArrayList<>();
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

  private static MarkedEngine engine(
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
    return new MarkedEngine(entry, deviations);
  }
}

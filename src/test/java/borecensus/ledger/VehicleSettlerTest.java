package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static borecensus.ledger.SmallFleet.AS_OF;
import static borecensus.ledger.SmallFleet.REGISTERS;
import static borecensus.ledger.SmallFleet.V1;
import static borecensus.ledger.SmallFleet.file;
import static borecensus.ledger.SmallFleet.repair;
import static borecensus.ledger.SmallFleet.replaced;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Doubt;
import borecensus.domain.RepairWork;
import borecensus.domain.RowCode;
import borecensus.domain.Throttle;
import borecensus.intake.RowRefusal;
import borecensus.ledger.SettledVehicle.Segment;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class VehicleSettlerTest {
  private final VehicleSettler settler = new VehicleSettler(REGISTERS, AS_OF);

  @Test
  void testsComeOldestFirstWhateverTheOrderOfIntake() {
    SettledVehicle settled =
        settler.settle(
            file(V1),
            List.of(
                sheet("C", "2025-03-01", 3000).inFile(1),
                sheet("A", "2025-01-01", 1000).inFile(2),
                sheet("B", "2025-02-01", 2000).inFile(3)));
    assertEquals(List.of("A", "B", "C"), ids(only(settled)));
    assertEquals(0, settled.outcome().refused().size());
  }

  @Test
  void aVehicleWithoutSheetsIsInServiceWithoutTests() {
    Segment segment = only(settler.settle(file(V1), List.of()));
    assertEquals("V1/engine-1", segment.engineId());
    assertTrue(segment.originalEngine());
    assertEquals(List.of(), segment.tests());
  }

  @Test
  void sheetsOfAnUnknownVehicleAreAllRefused() {
    SettledVehicle settled =
        settler.settleUnknown(List.of(sheet().inFile(1), sheet().rows(2L, 3L).inFile(1)));
    assertEquals(3, settled.outcome().refused().size());
    for (Outcome.Refused refused : settled.outcome().refused()) {
      assertEquals(RowCode.UNKNOWN_VEHICLE, refused.refusal().code());
    }
    assertEquals(List.of(), settled.segments());
  }

  @Test
  void aCorrectionThatIsItselfBrokenDoesNotWipeOutTheSheetItCorrects() {
    SettledVehicle settled =
        settler.settle(file(V1), List.of(sheet().inFile(1), sheet().gaugeId("G9").inFile(2)));
    assertEquals(List.of("T1"), ids(only(settled)));
    assertEquals(RowCode.UNKNOWN_GAUGE, settled.outcome().refused().get(0).refusal().code());
    assertEquals(List.of(), settled.outcome().superseded());
  }

  @Test
  void aSoundSheetUnderTheNumberOfABrokenOneStands() {
    SettledVehicle settled =
        settler.settle(file(V1), List.of(sheet().gaugeId("G9").inFile(1), sheet().inFile(2)));
    assertEquals(List.of("T1"), ids(only(settled)));
  }

  @Test
  void oneMistypedOdometerCostsOneTestAndNamesTheEngine() {
    SettledVehicle settled =
        settler.settle(
            file(V1),
            List.of(
                sheet("A", "2025-01-01", 100_000).inFile(1),
                sheet("B", "2025-02-01", 1_100_000).inFile(2),
                sheet("C", "2025-03-01", 120_000).inFile(3)));
    assertEquals(List.of("A", "C"), ids(only(settled)));
    RowRefusal refusal = settled.outcome().refused().get(0).refusal();
    assertEquals(RowCode.ODOMETER_BACKWARDS, refusal.code());
    assertEquals("odometer_km", refusal.column());
    assertEquals("1100000.0", refusal.value());
    assertTrue(refusal.message().contains("engine V1/engine-1"));
    assertTrue(refusal.message().endsWith(RowCode.ODOMETER_BACKWARDS.remedy()));
  }

  @Test
  void hoursThatFallAreNamedAsHoursWhereAnOdometerStandsBesideThem() {
    SettledVehicle settled =
        settler.settle(
            file(V1),
            List.of(
                sheet("A", "2025-01-01", 1000).hours(500).inFile(1),
                sheet("B", "2025-02-01", 2000).hours(50).inFile(2),
                sheet("C", "2025-03-01", 3000).hours(600).inFile(3)));
    RowRefusal refusal = settled.outcome().refused().get(0).refusal();
    assertEquals("engine_hours", refusal.column());
    assertEquals("50.0", refusal.value());
  }

  @Test
  void hoursThatFallWithANewEngineAreInOrder() {
    SettledVehicle settled =
        settler.settle(
            file(V1, replaced("2025-02-15", "")),
            List.of(
                sheet("A", "2025-01-01", Double.NaN).hours(9000).inFile(1),
                sheet("B", "2025-03-01", Double.NaN).hours(12).inFile(2)));
    assertEquals(List.of(), settled.outcome().refused());
    assertEquals(2, settled.segments().size());
  }

  @Test
  void readingsCopiedFromAnotherDateAreKeptInDoubt() {
    SettledVehicle settled =
        settler.settle(
            file(V1),
            List.of(
                sheet("A", "2025-01-01", 1000).gaugeId("GD").inFile(1),
                sheet("B", "2025-02-01", 2000).gaugeId("GD").inFile(2)));
    List<SettledTest> tests = only(settled).tests();
    assertEquals(List.of(), tests.get(0).doubts());
    assertEquals(List.of(Doubt.COPIED_READINGS), tests.get(1).doubts());
  }

  @Test
  void doubtsLookAtTheSiteOfTheSheetBeforeTheHomeSite() {
    SettledVehicle settled =
        settler.settle(
            file(V1),
            List.of(
                sheet("A", "2025-01-01", 1).siteId("HIGH").stationPressureHpa(1013).inFile(1),
                sheet("B", "2025-01-02", 2).siteId("").stationPressureHpa(1013).inFile(1),
                sheet("C", "2025-01-03", 3).altitudeM(1500).stationPressureHpa(1013).inFile(1)));
    List<SettledTest> tests = only(settled).tests();
    assertTrue(tests.get(0).doubts().contains(Doubt.SEA_LEVEL_PRESSURE_AT_ALTITUDE));
    assertFalse(tests.get(1).doubts().contains(Doubt.SEA_LEVEL_PRESSURE_AT_ALTITUDE));
    assertTrue(tests.get(2).doubts().contains(Doubt.SEA_LEVEL_PRESSURE_AT_ALTITUDE));
  }

  @ParameterizedTest
  @EnumSource(
      value = RepairWork.class,
      mode = EnumSource.Mode.EXCLUDE,
      names = {"OTHER", "ENGINE_REPLACED"})
  void workOnTheEngineRestartsItsHistory(RepairWork work) {
    SettledVehicle settled =
        settler.settle(
            file(V1, repair("2025-02-15", work, "")),
            List.of(
                sheet("A", "2025-01-01", 1000).inFile(1),
                sheet("B", "2025-03-01", 2000).inFile(2)));
    assertEquals(2, settled.segments().size());
    assertEquals(List.of("A"), ids(settled.segments().get(0)));
    assertEquals(List.of("B"), ids(settled.segments().get(1)));
    assertEquals(settled.segments().get(0).engineId(), settled.segments().get(1).engineId());
    assertTrue(settled.segments().get(1).originalEngine(), "the odometer is still its own");
  }

  @Test
  void otherWorkRestartsNothing() {
    SettledVehicle settled =
        settler.settle(
            file(V1, repair("2025-02-15", RepairWork.OTHER, "")),
            List.of(
                sheet("A", "2025-01-01", 1000).inFile(1),
                sheet("B", "2025-03-01", 2000).inFile(2)));
    assertEquals(List.of("A", "B"), ids(only(settled)));
  }

  @Test
  void theEngineInServiceComesLastEvenWithoutTests() {
    SettledVehicle settled =
        settler.settle(
            file(V1, replaced("2025-06-01", "S2")),
            List.of(
                sheet("A", "2025-01-01", 1000).inFile(1),
                sheet("B", "2025-03-01", 2000).inFile(2)));
    Segment last = settled.segments().get(settled.segments().size() - 1);
    assertEquals("V1/S2", last.engineId());
    assertFalse(last.originalEngine());
    assertEquals(List.of(), last.tests());
    assertEquals(List.of("A", "B"), ids(settled.segments().get(0)));
  }

  @Test
  void anOverhaulAfterTheLastTestLeavesTheEngineInServiceUntested() {
    SettledVehicle settled =
        settler.settle(
            file(V1, repair("2025-06-01", RepairWork.OVERHAUL, "")),
            List.of(sheet("A", "2025-01-01", 1000).inFile(1)));
    assertEquals(2, settled.segments().size());
    assertEquals(List.of(), settled.segments().get(1).tests());
    assertEquals("V1/engine-1", settled.segments().get(1).engineId());
  }

  @Test
  void workAfterTheNightRestartsNothingYet() {
    SettledVehicle settled =
        settler.settle(
            file(V1, repair("2026-06-01", RepairWork.OVERHAUL, "")),
            List.of(sheet("A", "2025-01-01", 1000).inFile(1)));
    assertEquals(List.of("A"), ids(only(settled)));
  }

  @Property(tries = 300)
  void everyRecordOfEverySheetEndsInExactlyOnePlace(
      @ForAll @Size(max = 25) List<@IntRange(max = 100_000) Integer> seeds) {
    List<LedgerSheet> sheets = new ArrayList<>();
    long record = 1;
    for (int seed : seeds) {
      Random random = new Random(seed);
      LedgerSheet sheet = anySheet(random, record).inFile(1 + random.nextInt(3));
      record += sheet.row().rowNumbers().size();
      sheets.add(sheet);
    }
    SettledVehicle settled = settler.settle(anyFile(seeds.size()), sheets);
    assertEquals(
        LongStream.range(1, record).boxed().toList(), accounted(settled), "records 1 to n");
  }

  @Property(tries = 100)
  void theOrderInWhichSheetsArriveChangesNothing(
      @ForAll @Size(min = 2, max = 15) List<@IntRange(max = 100_000) Integer> seeds) {
    List<LedgerSheet> sheets = new ArrayList<>();
    long record = 1;
    for (int seed : seeds) {
      Random random = new Random(seed);
      sheets.add(anySheet(random, record).inFile(1 + random.nextInt(3)));
      record += 2;
    }
    SettledVehicle settled = settler.settle(anyFile(1), sheets);
    Collections.shuffle(sheets, new Random(seeds.get(0)));
    SettledVehicle again = settler.settle(anyFile(1), sheets);
    assertEquals(settled.segments().toString(), again.segments().toString());
    assertEquals(settled.outcome(), again.outcome());
  }

  private static SheetBuilder anySheet(Random random, long record) {
    SheetBuilder sheet =
        sheet(
            "T" + random.nextInt(6),
            "202%d-0%d-1%d".formatted(random.nextInt(8), 1 + random.nextInt(9), random.nextInt(9)),
            1000.0 * random.nextInt(100));
    if (random.nextInt(3) == 0) {
      sheet.rows(record, record + 1);
    } else {
      sheet.rows(record);
    }
    switch (random.nextInt(10)) {
      case 0 -> sheet.gaugeId("G9");
      case 1 -> sheet.readings(12, 12, 12, 12);
      case 2 -> sheet.readings(1200, 1200);
      case 3 -> sheet.serial("S" + random.nextInt(3));
      case 4 -> sheet.throttle(Throttle.CLOSED);
      case 5 -> sheet.hours(random.nextInt(1000));
      case 6 -> sheet.readings(0, 0, 0, 0);
      default -> sheet.strokes(6);
    }
    return sheet;
  }

  private static VehicleFile anyFile(int number) {
    return switch (number % 4) {
      case 0 -> file(V1);
      case 1 -> file(V1, replaced("2023-05-05", "S1"), replaced("2024-05-05", ""));
      case 2 -> file(V1, repair("2024-05-05", RepairWork.VALVES, ""));
      default -> file(V1, replaced("2024-05-05", "S2"), replaced("2024-05-05", "S2"));
    };
  }

  private static List<Long> accounted(SettledVehicle settled) {
    List<Long> numbers = new ArrayList<>();
    settled
        .segments()
        .forEach(
            segment -> segment.tests().forEach(test -> numbers.addAll(test.row().rowNumbers())));
    settled.outcome().refused().forEach(refused -> numbers.add(refused.refusal().rowNumber()));
    settled.outcome().superseded().forEach(superseded -> numbers.add(superseded.rowNumber()));
    return numbers.stream().sorted().toList();
  }

  private static Segment only(SettledVehicle settled) {
    assertEquals(1, settled.segments().size());
    return settled.segments().get(0);
  }

  private static List<String> ids(Segment segment) {
    return segment.tests().stream().map(test -> test.row().testId()).toList();
  }
}

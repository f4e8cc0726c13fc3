package borecensus.ledger;

import static borecensus.ledger.SheetBuilder.sheet;
import static borecensus.ledger.SmallFleet.AS_OF;
import static borecensus.ledger.SmallFleet.file;
import static borecensus.ledger.SmallFleet.replaced;
import static borecensus.ledger.SmallFleet.vehicle;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ledger.EngineTimeline.Engine;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class EngineTimelineTest {
  private static final VehicleFile PLAIN = file(vehicle("V1", "F4", ""));

  @Test
  void anEngineWithoutASerialHasARunningNumber() {
    EngineTimeline timeline = timeline(PLAIN, sheet("A", "2025-01-01", 1));
    assertEquals(List.of("V1/engine-1"), ids(timeline));
    assertTrue(timeline.inService().original());
  }

  @Test
  void theRegistersSerialNamesTheEngine() {
    EngineTimeline timeline =
        timeline(file(vehicle("V1", "F4", "S1")), sheet("A", "2025-01-01", 1));
    assertEquals(List.of("V1/S1"), ids(timeline));
    assertEquals("V1/S1", timeline.inService().engineId());
  }

  @Test
  void aVehicleWithoutSheetsHasAnEngineInService() {
    assertEquals(new Engine("V1/S1", true), timeline(file(vehicle("V1", "F4", "S1"))).inService());
    assertEquals(new Engine("V1/engine-1", true), timeline(PLAIN).inService());
  }

  @Test
  void aRecordedReplacementStartsANewEngineWithOrWithoutASerial() {
    SheetBuilder[] sheets = {sheet("A", "2025-01-01", 1), sheet("B", "2025-06-01", 2)};
    EngineTimeline named =
        timeline(file(vehicle("V1", "F4", ""), replaced("2025-03-01", "S2")), sheets);
    assertEquals(List.of("V1/engine-1", "V1/S2"), ids(named));
    assertFalse(named.inService().original());
    EngineTimeline nameless =
        timeline(file(vehicle("V1", "F4", ""), replaced("2025-03-01", "")), sheets);
    assertEquals(List.of("V1/engine-1", "V1/engine-2"), ids(nameless));
  }

  @Test
  void aTestOnTheDayOfTheReplacementBelongsToTheNewEngine() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", ""), replaced("2025-03-01", "S2")),
            sheet("A", "2025-02-28", 1),
            sheet("B", "2025-03-01", 2));
    assertEquals(List.of("V1/engine-1", "V1/S2"), ids(timeline));
  }

  @Test
  void aNewSerialOnASheetStartsANewEngineWithoutARepairRecord() {
    EngineTimeline timeline =
        timeline(
            PLAIN,
            sheet("A", "2025-01-01", 1).serial("S1"),
            sheet("B", "2025-02-01", 2),
            sheet("C", "2025-03-01", 3).serial("S2"),
            sheet("D", "2025-04-01", 4));
    assertEquals(List.of("V1/S1", "V1/S1", "V1/S2", "V1/S2"), ids(timeline));
    assertEquals(new Engine("V1/S2", false), timeline.inService());
    assertTrue(timeline.engineOfRow().get(0).original());
  }

  @Test
  void oneMistypedSerialDoesNotSplitTheHistoryBehindIt() {
    EngineTimeline timeline =
        timeline(
            PLAIN,
            sheet("A", "2025-01-01", 1).serial("S1"),
            sheet("B", "2025-02-01", 2).serial("S7"),
            sheet("C", "2025-03-01", 3).serial("S1"));
    assertEquals(List.of("V1/S1", "V1/S7", "V1/S1"), ids(timeline));
    assertEquals(new Engine("V1/S1", true), timeline.inService());
  }

  @Test
  void sheetsBeforeTheFirstNamedSerialAreOfThatEngine() {
    EngineTimeline timeline =
        timeline(PLAIN, sheet("A", "2025-01-01", 1), sheet("B", "2025-02-01", 2).serial("S1"));
    assertEquals(List.of("V1/S1", "V1/S1"), ids(timeline));
  }

  @Test
  void theOldSerialOnAFormAfterTheReplacementIsStale() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", "S1"), replaced("2025-03-01", "S2")),
            sheet("A", "2025-01-01", 1).serial("S1"),
            sheet("B", "2025-04-01", 2).serial("S1"),
            sheet("C", "2025-05-01", 3).serial("S2"));
    assertEquals(List.of("V1/S1", "V1/S2", "V1/S2"), ids(timeline));
  }

  @Test
  void aRegisterThatStillNamesTheOldEngineDoesNotNameTheNewOne() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", "S1"), replaced("2025-03-01", "")),
            sheet("A", "2025-01-01", 1).serial("S1"),
            sheet("B", "2025-04-01", 2).serial("S1"));
    assertEquals(List.of("V1/S1", "V1/engine-2"), ids(timeline));
  }

  @Test
  void aRegisterThatIsUpToDateNamesTheEngineFittedLast() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", "S3"), replaced("2024-03-01", ""), replaced("2025-03-01", "")),
            sheet("A", "2024-01-01", 1),
            sheet("B", "2024-06-01", 2),
            sheet("C", "2025-06-01", 3));
    assertEquals(List.of("V1/engine-1", "V1/engine-2", "V1/S3"), ids(timeline));
  }

  @Test
  void aReplacementAfterAllTestsLeavesTheNewEngineInServiceUntested() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", ""), replaced("2025-03-01", "")), sheet("A", "2025-01-01", 1));
    assertEquals(List.of("V1/engine-1"), ids(timeline));
    assertEquals(new Engine("V1/engine-2", false), timeline.inService());
  }

  @Test
  void aReplacementBeforeAllTestsMeansTheEngineIsNotTheOriginal() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", ""), replaced("2024-03-01", "")), sheet("A", "2025-01-01", 1));
    assertEquals(new Engine("V1/engine-2", false), timeline.engineOfRow().get(0));
  }

  @Test
  void aReplacementAfterTheNightIsNotYetDone() {
    EngineTimeline timeline =
        timeline(
            file(vehicle("V1", "F4", "S1"), replaced("2026-03-01", "S2")),
            sheet("A", "2025-01-01", 1));
    assertEquals(new Engine("V1/S1", true), timeline.inService());
  }

  private static EngineTimeline timeline(VehicleFile file, SheetBuilder... sheets) {
    return new EngineTimeline(file, Arrays.stream(sheets).map(SheetBuilder::row).toList(), AS_OF);
  }

  private static List<String> ids(EngineTimeline timeline) {
    return timeline.engineOfRow().stream().map(Engine::engineId).toList();
  }
}

package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class TestIdsTest {
  private static final LocalDate DAY = LocalDate.of(2026, 3, 31);

  private static String first(LocalDate asOf, String vehicleId, String engineId) {
    return new TestIds(asOf, Set.of()).next(vehicleId, engineId);
  }

  @Test
  void theSameSnapshotVehicleAndEngineGiveTheSameNumberAgain() {
    assertEquals(first(DAY, "V", "E"), first(DAY, "V", "E"));
  }

  @Test
  void anotherDayVehicleOrEngineGivesAnotherNumber() {
    String id = first(DAY, "V", "E");
    assertNotEquals(id, first(DAY.plusDays(1), "V", "E"));
    assertNotEquals(id, first(DAY, "W", "E"));
    assertNotEquals(id, first(DAY, "V", "F"));
    assertNotEquals(first(DAY, "VE", ""), first(DAY, "V", "E"));
  }

  @Test
  void aNumberThatStandsOnASheetAlreadyIsPassedOver() {
    String id = first(DAY, "V", "E");
    String next = new TestIds(DAY, Set.of(id)).next("V", "E");
    assertNotEquals(id, next);
    assertTrue(CheckCharacter.ends(next), next);
  }

  @Test
  void manyNumbersAreDistinctLegibleAndChecked() {
    TestIds ids = new TestIds(DAY, Set.of());
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < 20_000; i++) {
      String id = ids.next("VEHICLE-" + i, "");
      assertTrue(id.matches("S260331-[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}"), id);
      assertTrue(CheckCharacter.ends(id), id);
      assertTrue(seen.add(id), id);
    }
  }
}

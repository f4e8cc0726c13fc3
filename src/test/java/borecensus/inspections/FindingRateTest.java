package borecensus.inspections;

import static borecensus.inspections.InspectionGroup.DRAWN_AT_RANDOM;
import static borecensus.inspections.InspectionGroup.MARKED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.inspections.FindingRate.Count;
import java.util.List;
import org.junit.jupiter.api.Test;

class FindingRateTest {
  private static final List<FindingRate> RATES =
      FindingRate.of(
          List.of(
              new Count("F1", MARKED, "low_cylinder", true, 6),
              new Count("F1", MARKED, "low_cylinder", false, 2),
              new Count("F1", MARKED, "low_cylinder", null, 3),
              new Count("F2", MARKED, "low_bank", true, 1),
              new Count("F2", DRAWN_AT_RANDOM, "high_cylinder", false, 4)));

  private static FindingRate rate(String familyId, String reason) {
    return RATES.stream()
        .filter(r -> r.familyId().equals(familyId) && r.reason().equals(reason))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void onlyInspectionsThatToldSomethingCount() {
    FindingRate rate = rate("F1", "low_cylinder");
    assertEquals(8, rate.inspected());
    assertEquals(6.0 / 8, rate.hitRate(), 1e-15);
    assertEquals(3, rate.inconclusive());
    assertTrue(rate.limits().lower() < 0.75 && 0.75 < rate.limits().upper());
  }

  @Test
  void theFleetIsTheSumOfItsFamilies() {
    assertEquals(9, rate(FindingRate.FLEET, "marked").inspected());
    assertEquals(7, rate(FindingRate.FLEET, "marked").confirmed());
    assertEquals(rate("F2", "low_bank").confirmed(), rate("*", "low_bank").confirmed());
  }

  @Test
  void anEngineThatWasNotMarkedCountsForNoReason() {
    assertEquals(0, rate("F2", "drawn_at_random").hitRate());
    assertTrue(RATES.stream().noneMatch(r -> r.reason().equals("high_cylinder")));
  }

  @Test
  void aGroupWithoutResultsHasNoRate() {
    FindingRate none = new FindingRate("F", "marked", 0, 0, 2);
    assertTrue(Double.isNaN(none.hitRate()) && Double.isNaN(none.limits().lower()));
  }
}

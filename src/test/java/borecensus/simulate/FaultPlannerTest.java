package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks;
import borecensus.domain.Reason;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class FaultPlannerTest {
  private static final int DRAWS = 600;
  private static final LocalDate FIRST = LocalDate.of(2023, 1, 10);
  private static final LocalDate LAST = LocalDate.of(2025, 9, 1);
  private static final List<LocalDate> DAYS = List.of(FIRST, LocalDate.of(2024, 3, 3), LAST);

  @Test
  void planted_pairs_are_neighbours_in_a_bank_numbered_odd_and_even() throws Exception {
    List<FaultPlan> pairs = drawn("LARCH-V8", DAYS, Reason.LOW_ADJACENT_PAIR);
    assertTrue(pairs.size() > 30, "only " + pairs.size() + " pairs drawn");
    assertEquals(
        Set.of("1;3", "3;5", "5;7", "2;4", "4;6", "6;8"),
        pairs.stream().map(p -> CsvTable.joined(p.cylinders())).collect(Collectors.toSet()));
  }

  @Test
  void a_low_bank_is_exactly_one_bank() throws Exception {
    Set<List<Integer>> banks =
        drawn("ELM-V6", DAYS, Reason.LOW_BANK).stream()
            .map(FaultPlan::cylinders)
            .collect(Collectors.toSet());
    assertEquals(Set.of(List.of(1, 2, 3), List.of(4, 5, 6)), banks);
  }

  @Test
  void an_engine_with_one_bank_never_has_a_low_bank() throws Exception {
    assertEquals(List.of(), drawn("BIRCH-4", DAYS, Reason.LOW_BANK));
  }

  @Test
  void a_fall_begins_after_the_first_test_and_is_complete_at_the_last() throws Exception {
    List<FaultPlan> falls = new ArrayList<>(drawn("ROWAN-6D", DAYS, Reason.FALLING_CYLINDER));
    falls.addAll(drawn("ROWAN-6D", DAYS, Reason.FALLING_LEVEL));
    assertFalse(falls.isEmpty());
    for (FaultPlan fall : falls) {
      assertEquals(0, fall.severityPct(FIRST));
      assertEquals(fall.growth().finalPct(), fall.severityPct(LAST), 1e-12);
      assertTrue(fall.severityPct(LAST.minusDays(60)) < fall.severityPct(LAST));
    }
  }

  @Test
  void an_engine_tested_twice_has_no_fall_to_show() throws Exception {
    assertEquals(List.of(), drawn("ROWAN-6D", DAYS.subList(0, 2), Reason.FALLING_LEVEL));
  }

  @Test
  void severities_stay_in_the_range_of_their_kind_or_the_cylinder_is_dead() throws Exception {
    List<FaultPlan> low = drawn("BIRCH-4", DAYS, Reason.LOW_CYLINDER);
    long dead = low.stream().filter(f -> f.growth().finalPct() == 100).count();
    assertTrue(dead > 0 && dead < low.size() / 4, dead + " of " + low.size() + " dead");
    for (FaultPlan fault : low) {
      double severity = fault.growth().finalPct();
      assertTrue(severity == 100 || severity >= 5 && severity <= 60, "severity " + severity);
      assertEquals(1 - severity / 100, fault.factor(fault.cylinders().get(0), LAST), 1e-12);
    }
  }

  @Test
  void a_high_cylinder_reads_high_and_the_others_as_before() throws Exception {
    FaultPlan high = drawn("BIRCH-4", DAYS, Reason.HIGH_CYLINDER).get(0);
    int cylinder = high.cylinders().get(0);
    assertTrue(high.factor(cylinder, LAST) >= 1.08);
    assertEquals(1, high.factor(cylinder % 4 + 1, LAST));
  }

  @Test
  void every_pair_drawn_for_any_family_shares_a_wall() throws Exception {
    for (FamilyPlan family : Scenarios.highlandLine().families()) {
      List<Banks.Pair> walls = family.layout().adjacentPairs();
      for (FaultPlan pair : drawn(family.familyId(), DAYS, Reason.LOW_ADJACENT_PAIR)) {
        int a = pair.cylinders().get(0);
        int b = pair.cylinders().get(1);
        assertTrue(
            walls.contains(new Banks.Pair(a, b)) || walls.contains(new Banks.Pair(b, a)),
            family.familyId() + " " + pair.cylinders());
      }
    }
  }

  private static List<FaultPlan> drawn(String familyId, List<LocalDate> days, Reason kind)
      throws Exception {
    Scenario scenario = Scenarios.highlandLine();
    FamilyPlan family = Scenarios.family(scenario, familyId);
    Draws draws = new RandomStreams(5).stream("fault", familyId);
    List<FaultPlan> found = new ArrayList<>();
    for (int i = 0; i < DRAWS; i++) {
      FaultPlanner.plan(scenario.faults(), family, days, draws)
          .filter(fault -> fault.kind() == kind)
          .ifPresent(found::add);
    }
    return found;
  }
}

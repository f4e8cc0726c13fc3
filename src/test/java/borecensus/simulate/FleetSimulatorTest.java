package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Reason;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FleetSimulatorTest {
  @TempDir Path temp;

  @Test
  void the_same_scenario_twice_is_byte_identical() throws Exception {
    FleetFolder first = simulate(Scenarios.highlandLine(), "first");
    FleetFolder second = simulate(Scenarios.highlandLine(), "second");
    assertSameBytes(first.bytes(), second.bytes());
  }

  @Test
  void the_committed_sample_is_what_its_scenario_gives() throws Exception {
    FleetFolder fresh = simulate(Scenarios.highlandLine(), "fresh");
    FleetFolder sample = new FleetFolder(Path.of("sample-datasets/highland-line"));
    assertSameBytes(sample.bytes(), fresh.bytes());
  }

  @Test
  void another_seed_gives_another_fleet() throws Exception {
    FleetFolder one = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "one");
    FleetFolder other =
        simulate(
            Scenarios.highlandLine(
                tree -> {
                  Scenarios.fewVehicles(tree);
                  tree.put("seed", 3);
                }),
            "other");
    assertNotEquals(one.text("vehicles.csv"), other.text("vehicles.csv"));
  }

  @Test
  void one_more_vehicle_leaves_the_tests_of_the_others_as_they_were() throws Exception {
    FleetFolder few = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "few");
    FleetFolder more =
        simulate(
            Scenarios.highlandLine(
                tree -> {
                  Scenarios.fewVehicles(tree);
                  ((ObjectNode) tree.get("families").get(0)).put("vehicles", 5);
                }),
            "more");
    Set<Map<String, String>> rows = new HashSet<>(more.rows("truth/tests.csv"));
    assertTrue(rows.containsAll(few.rows("truth/tests.csv")));
    assertTrue(rows.size() > few.rows("truth/tests.csv").size());
  }

  @Test
  void test_ids_are_unique_across_the_fleet() throws Exception {
    List<Map<String, String>> tests =
        simulate(Scenarios.highlandLine(), "fleet").rows("truth/tests.csv");
    long distinct = tests.stream().map(row -> row.get("test_id")).distinct().count();
    assertEquals(tests.size(), distinct);
  }

  @Test
  void every_kind_of_fault_is_planted_and_every_severity_is_above_zero() throws Exception {
    List<Map<String, String>> engines =
        simulate(Scenarios.highlandLine(), "fleet").rows("truth/engines.csv");
    Set<String> kinds =
        engines.stream().map(row -> row.get("fault_kind")).collect(Collectors.toSet());
    Set<String> expected = new TreeSet<>(Set.of("none"));
    for (Reason reason : Reason.values()) {
      if (FaultPlanner.canPlant(reason)) {
        expected.add(reason.code());
      }
    }
    assertEquals(expected, new TreeSet<>(kinds));
    for (Map<String, String> row : engines) {
      boolean faulty = !row.get("fault_kind").equals("none");
      assertEquals(faulty, Double.parseDouble(row.get("severity_pct")) > 0, row.toString());
      assertEquals(faulty, !row.get("cylinders").isEmpty(), row.toString());
    }
  }

  @Test
  void families_over_hours_carry_no_odometer_and_the_others_no_hours() throws Exception {
    FleetFolder fleet = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "fleet");
    int overHours = 0;
    for (String path : fleet.paths("sheets")) {
      for (Map<String, String> row : fleet.rows(path)) {
        boolean hours = row.get("vehicle_id").startsWith("HAZEL-4H");
        String km = row.getOrDefault("odometer_km", "") + row.getOrDefault("odometer_mi", "");
        assertEquals(hours, km.isEmpty(), row.toString());
        assertEquals(hours, !row.getOrDefault("engine_hours", "").isEmpty(), row.toString());
        overHours += hours ? 1 : 0;
      }
    }
    assertTrue(overHours > 0);
  }

  @Test
  void files_of_a_depot_sort_in_the_order_of_time() throws Exception {
    FleetFolder fleet = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "fleet");
    String latest = "";
    String depot = "";
    for (String path : fleet.paths("sheets")) {
      String here = path.substring(0, path.lastIndexOf('/'));
      latest = here.equals(depot) ? latest : "";
      depot = here;
      for (Map<String, String> row : fleet.rows(path)) {
        String day = row.get("tested_at").substring(0, 10);
        assertTrue(day.compareTo(latest) >= 0, path + " " + day + " after " + latest);
        latest = day;
      }
    }
  }

  @Test
  void an_unrecorded_engine_change_shows_as_a_new_serial_on_every_later_sheet() throws Exception {
    FleetFolder fleet = simulate(Scenarios.highlandLine(), "fleet");
    Set<String> recorded =
        fleet.rows("repairs.csv").stream()
            .map(row -> row.get("new_engine_serial"))
            .collect(Collectors.toSet());
    Set<String> unrecorded =
        fleet.rows("truth/engines.csv").stream()
            .map(row -> row.get("engine_id"))
            .filter(id -> id.endsWith("-E2") && !recorded.contains(id))
            .collect(Collectors.toSet());
    assertFalse(unrecorded.isEmpty());
    Set<String> shown = new HashSet<>();
    for (String path : fleet.paths("sheets")) {
      fleet.rows(path).forEach(row -> shown.add(row.getOrDefault("engine_serial", "")));
    }
    assertTrue(shown.containsAll(unrecorded), unrecorded + " not all in the sheets");
  }

  @Test
  void a_folder_with_something_else_in_it_is_left_alone() throws Exception {
    Files.writeString(temp.resolve("notes.txt"), "mine");
    Scenario scenario = Scenarios.highlandLine(Scenarios::fewVehicles);
    OutputFolder.NotOurs e =
        assertThrows(OutputFolder.NotOurs.class, () -> FleetSimulator.simulate(scenario, temp));
    assertTrue(e.getMessage().contains("holds no simulated fleet"), e.getMessage());
    assertEquals(List.of("notes.txt"), new FleetFolder(temp).paths(""));
  }

  @Test
  void an_earlier_fleet_is_replaced_to_the_last_file() throws Exception {
    simulate(Scenarios.highlandLine(), "fleet");
    FleetFolder again = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "fleet");
    FleetFolder fresh = simulate(Scenarios.highlandLine(Scenarios::fewVehicles), "fresh");
    assertSameBytes(fresh.bytes(), again.bytes());
  }

  private FleetFolder simulate(Scenario scenario, String folder) throws Exception {
    Path out = temp.resolve(folder);
    FleetSimulator.simulate(scenario, out);
    return new FleetFolder(out);
  }

  private static void assertSameBytes(Map<String, byte[]> expected, Map<String, byte[]> actual) {
    assertEquals(expected.keySet(), actual.keySet());
    expected.forEach((path, bytes) -> assertArrayEquals(bytes, actual.get(path), path));
  }
}

package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.RowCode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DirtyRowsTest {
  @TempDir static Path temp;

  private static FleetFolder fleet;

  /** A planted row with its place. */
  private record Planted(String file, int number, Map<String, String> row) {}

  @BeforeAll
  static void simulate() throws Exception {
    FleetSimulator.simulate(Scenarios.highlandLine(), temp);
    fleet = new FleetFolder(temp);
  }

  @Test
  void every_row_code_is_planted_as_often_as_the_scenario_says() throws Exception {
    Map<String, Integer> counts = new TreeMap<>();
    for (Map<String, String> row : fleet.rows("truth/dirty_rows.csv")) {
      counts.merge(row.get("code"), 1, Integer::sum);
    }
    Map<String, Integer> wanted = new TreeMap<>(Scenarios.highlandLine().dirtyRows());
    int superseded = wanted.remove("exact_repeat") + wanted.remove("corrected");
    wanted.put(DirtyRows.SUPERSEDED, superseded);
    assertEquals(wanted, counts);
    for (RowCode code : RowCode.values()) {
      assertTrue(counts.getOrDefault(code.code(), 0) > 0, code.code());
    }
  }

  @Test
  void rows_with_an_unknown_name_carry_a_name_that_no_register_has() throws Exception {
    assertUnregistered("unknown_vehicle", "vehicle_id", "vehicles.csv");
    assertUnregistered("unknown_gauge", "gauge_id", "gauges.csv");
    assertUnregistered("unknown_site", "site_id", "sites.csv");
  }

  @Test
  void malformed_rows_have_another_number_of_fields_and_all_others_have_the_headers()
      throws Exception {
    List<String> malformed = new ArrayList<>();
    for (Planted planted : planted("malformed_row")) {
      malformed.add(planted.file() + " " + planted.number());
    }
    List<String> uneven = new ArrayList<>();
    for (String path : fleet.paths("sheets")) {
      List<List<String>> records = fleet.records(path);
      for (int i = 1; i < records.size(); i++) {
        if (records.get(i).size() != records.get(0).size()) {
          uneven.add(path + " " + i);
        }
      }
    }
    assertEquals(malformed, uneven);
  }

  @Test
  void a_duplicate_stands_under_the_test_id_of_the_row_before_it_and_differs() throws Exception {
    for (Planted planted : planted("duplicate_of")) {
      Map<String, String> before = fleet.rows(planted.file()).get(planted.number() - 2);
      assertEquals(before.get("test_id"), planted.row().get("test_id"));
      assertNotEquals(before, planted.row());
    }
  }

  @Test
  void implausible_units_are_psi_numbers_on_a_bar_sheet() throws Exception {
    for (Planted planted : planted("unit_implausible")) {
      assertEquals("bar", planted.row().get("unit"));
      double value = Double.parseDouble(planted.row().get("cyl_1").replace(',', '.'));
      assertTrue(value > 60 && value < 700, planted.toString());
    }
  }

  @Test
  void a_reading_stands_beyond_the_last_cylinder_of_the_family() throws Exception {
    Map<String, Integer> cylinders = new TreeMap<>();
    for (Map<String, String> row : fleet.rows("families.csv")) {
      cylinders.put(row.get("family_id"), Integer.valueOf(row.get("cylinders")));
    }
    for (Planted planted : planted("cylinder_count_mismatch")) {
      String vehicle = planted.row().get("vehicle_id");
      String family = vehicle.substring(0, vehicle.lastIndexOf('-'));
      String beyond = planted.row().get("cyl_" + (cylinders.get(family) + 1));
      assertTrue(!beyond.isEmpty(), planted.toString());
    }
  }

  @Test
  void rows_without_a_reading_have_none_and_future_rows_are_after_the_night() throws Exception {
    for (Planted planted : planted("missing_reading")) {
      assertTrue(
          planted.row().entrySet().stream()
              .allMatch(e -> !e.getKey().startsWith("cyl_") || e.getValue().isEmpty()),
          planted.toString());
    }
    String night = Scenarios.highlandLine().asOf().toString();
    for (Planted planted : planted("future_date")) {
      assertTrue(planted.row().get("tested_at").compareTo(night) > 0, planted.toString());
    }
  }

  @Test
  void a_corrected_sheet_comes_again_in_a_later_file_with_other_readings() throws Exception {
    int corrected = 0;
    for (Planted planted : planted(DirtyRows.SUPERSEDED)) {
      String later =
          planted.file().substring(0, planted.file().lastIndexOf('/')) + "/corrections.csv";
      Map<String, String> correction =
          !fleet.paths("sheets").contains(later)
              ? null
              : fleet.rows(later).stream()
                  .filter(row -> row.get("test_id").equals(planted.row().get("test_id")))
                  .findFirst()
                  .orElse(null);
      if (correction != null) {
        corrected++;
        assertTrue(later.compareTo(planted.file()) > 0);
        assertNotEquals(correction.get("cyl_1"), planted.row().get("cyl_1"));
      }
    }
    assertEquals(Scenarios.highlandLine().dirtyRows().get("corrected"), corrected);
  }

  @Test
  void an_exact_repeat_equals_the_row_before_it() throws Exception {
    int repeats = 0;
    for (Planted planted : planted(DirtyRows.SUPERSEDED)) {
      boolean first = planted.number() < 2;
      repeats +=
          !first && fleet.rows(planted.file()).get(planted.number() - 2).equals(planted.row())
              ? 1
              : 0;
    }
    assertEquals(Scenarios.highlandLine().dirtyRows().get("exact_repeat"), repeats);
  }

  @Test
  void a_row_that_no_sheet_can_carry_is_refused_with_its_code() throws Exception {
    Scenario scenario =
        Scenarios.highlandLine(
            tree -> {
              Scenarios.fewVehicles(tree);
              tree.get("gauges")
                  .forEach(
                      g ->
                          ((ObjectNode) g)
                              .put("unit", "kpa")
                              .put("full_scale", 5000)
                              .put("resolution", 20));
              ((ObjectNode) tree.get("dirty_rows")).put("unit_implausible", 1);
            });
    InvalidScenarioException e =
        assertThrows(
            InvalidScenarioException.class,
            () -> FleetSimulator.simulate(scenario, temp.resolve("never")));
    assertEquals(
        List.of("dirty_rows unit_implausible: no sound test is left to make row 1"), e.problems());
  }

  private static void assertUnregistered(String code, String column, String register)
      throws Exception {
    List<String> known = fleet.rows(register).stream().map(row -> row.get(column)).toList();
    for (Planted planted : planted(code)) {
      assertTrue(!known.contains(planted.row().get(column)), planted.toString());
    }
  }

  private static List<Planted> planted(String code) throws Exception {
    List<Planted> found = new ArrayList<>();
    for (Map<String, String> truth : fleet.rows("truth/dirty_rows.csv")) {
      if (truth.get("code").equals(code)) {
        String file = truth.get("source_file");
        int number = Integer.parseInt(truth.get("row_number"));
        found.add(new Planted(file, number, fleet.rows(file).get(number - 1)));
      }
    }
    assertTrue(!found.isEmpty(), "no row with " + code);
    return found;
  }
}

package borecensus.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ScenarioReaderTest {

  @ParameterizedTest
  @ValueSource(strings = {"highland-line", "typical-2400"})
  void bundled_scenarios_are_valid_and_carry_the_name_of_their_file(String name) throws Exception {
    assertEquals(name, ScenarioReader.read(Path.of("seeds/scenarios", name + ".json")).name());
  }

  @Test
  void the_demonstration_has_the_variety_it_promises() throws Exception {
    Scenario scenario = Scenarios.highlandLine();
    assertEquals(6, scenario.depots().size());
    assertTrue(scenario.families().size() >= 7);
    assertTrue(scenario.gauges().size() >= 25);
    assertEquals(450, scenario.families().stream().mapToInt(FamilyPlan::vehicles).sum());
    assertEquals(
        Set.of("psi", "kpa", "bar", "mpa", "kgf_cm2"),
        scenario.gauges().stream().map(g -> g.unit().code()).collect(Collectors.toSet()));
  }

  @Test
  void all_problems_are_reported_at_once() throws Exception {
    List<String> problems =
        problems(
            tree -> {
              tree.put("as_of", "31.03.2026");
              tree.put("colour", "green");
              depot(tree).put("weight", -1);
              family(tree).put("cylinders", 17);
              family(tree).put("fuel", "steam");
              gauge(tree).put("site_id", "nowhere");
              ((ObjectNode) tree.get("habits")).put("away_share", 1.5);
              ((ObjectNode) tree.get("dirty_rows")).put("smudged", 3);
            });
    assertContains(problems, "'31.03.2026' cannot be read as year-month-day");
    assertContains(problems, "'colour' is not a setting");
    assertContains(problems, "depot saltquay weight: must be above 0, not -1.0");
    assertContains(problems, "family ALDER-3: cylinders must be 1 to 16, not 17");
    assertContains(problems, "'steam' cannot be read; write one of petrol, diesel, gas");
    assertContains(problems, "gauge G01: site_id 'nowhere' is not a depot");
    assertContains(problems, "habits away_share: must be a share from 0 to 1, not 1.5");
    assertContains(problems, "dirty_rows: 'smudged' is not a row code");
  }

  @Test
  void what_is_missing_altogether_is_named() {
    InvalidScenarioException e =
        assertThrows(InvalidScenarioException.class, () -> ScenarioReader.parse("{}"));
    for (String part : List.of("name", "as_of", "depots", "families", "gauges", "habits")) {
      assertTrue(
          e.problems().stream().anyMatch(p -> p.startsWith(part)), part + " in " + e.problems());
    }
  }

  @Test
  void broken_json_is_reported_with_its_line() {
    InvalidScenarioException e =
        assertThrows(
            InvalidScenarioException.class, () -> ScenarioReader.parse("{\n \"name\": oops }"));
    assertEquals(1, e.problems().size());
    assertTrue(e.problems().get(0).startsWith("line 2, column "), e.problems().get(0));
  }

  @Test
  void a_family_that_no_gauge_can_test_is_named() throws Exception {
    List<String> problems =
        problems(tree -> ((ObjectNode) family(tree).get("wear")).put("fresh_kpa", 5000));
    assertEquals(
        List.of("family ALDER-3: no gauge is rated for its fuel with scale enough for 5000.0 kPa"),
        problems);
  }

  @Test
  void names_that_stand_twice_are_named() throws Exception {
    List<String> problems =
        problems(
            tree -> {
              ArrayNode gauges = (ArrayNode) tree.get("gauges");
              gauges.add(gauges.get(0).deepCopy());
            });
    assertEquals(List.of("gauges: 'G01' stands twice"), problems);
  }

  @Test
  void any_one_cell_spoiled_gives_problems_or_a_usable_scenario_and_never_a_fault_of_ours()
      throws Exception {
    int refused = 0;
    int accepted = 0;
    for (String replacement : List.of("null", "\"x\"", "-1", "[]", "{}")) {
      for (String json : Spoiling.everyCell(Scenarios.text(Scenarios::fewVehicles), replacement)) {
        try {
          ScenarioReader.parse(json);
          accepted++;
        } catch (InvalidScenarioException e) {
          assertTrue(e.problems().size() > 0 && !e.getMessage().isBlank(), json);
          refused++;
        }
      }
    }
    assertTrue(refused > 1000, refused + " refused");
    assertTrue(accepted > 100, accepted + " accepted");
  }

  private static List<String> problems(Consumer<ObjectNode> change) throws Exception {
    String json = Scenarios.text(change);
    return assertThrows(InvalidScenarioException.class, () -> ScenarioReader.parse(json))
        .problems();
  }

  private static void assertContains(List<String> problems, String expected) {
    assertTrue(
        problems.stream().anyMatch(p -> p.contains(expected)), expected + " not in " + problems);
  }

  private static ObjectNode depot(ObjectNode tree) {
    return (ObjectNode) tree.get("depots").get(0);
  }

  private static ObjectNode family(ObjectNode tree) {
    return (ObjectNode) tree.get("families").get(0);
  }

  private static ObjectNode gauge(ObjectNode tree) {
    return (ObjectNode) tree.get("gauges").get(0);
  }
}

package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.simulate.Scenarios;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class SimulateFleetCommandTest {
  @TempDir Path temp;

  private final StringWriter messages = new StringWriter();
  private Path scenario;

  @BeforeEach
  void writeSmallScenario() throws Exception {
    scenario = temp.resolve("small.json");
    Files.writeString(scenario, Scenarios.text(Scenarios::fewVehicles));
  }

  @Test
  void a_good_run_writes_the_fleet_and_says_how_much() {
    assertEquals(0, run("--scenario", scenario.toString(), "--out", out().toString()));
    assertTrue(messages.toString().startsWith("Wrote 36 vehicles"), messages.toString());
    assertTrue(Files.isRegularFile(out().resolve("truth/engines.csv")));
  }

  @Test
  void a_missing_option_is_wrong_use() {
    assertEquals(2, run("--scenario", scenario.toString()));
    assertTrue(messages.toString().contains("--out"), messages.toString());
  }

  @Test
  void a_folder_with_something_else_is_wrong_use() throws Exception {
    Files.createDirectories(out());
    Files.writeString(out().resolve("notes.txt"), "mine");
    assertEquals(2, run("--scenario", scenario.toString(), "--out", out().toString()));
    assertTrue(messages.toString().contains("holds no simulated fleet"), messages.toString());
    assertNoStackTrace();
  }

  @Test
  void a_missing_scenario_is_unusable_input() {
    assertEquals(3, run("--scenario", temp.resolve("none.json").toString(), "--out", "x"));
    assertTrue(messages.toString().contains("there is no such file"), messages.toString());
    assertNoStackTrace();
  }

  @Test
  void every_problem_of_a_scenario_stands_on_a_line_of_its_own() throws Exception {
    Files.writeString(scenario, "{\"name\": \"Bad Name\", \"seed\": \"x\"}");
    assertEquals(3, run("--scenario", scenario.toString(), "--out", out().toString()));
    assertTrue(messages.toString().lines().count() > 5, messages.toString());
    assertNoStackTrace();
    assertFalse(Files.exists(out()));
  }

  private Path out() {
    return temp.resolve("fleet");
  }

  private int run(String... arguments) {
    return new CommandLine(new SimulateFleetCommand())
        .setErr(new PrintWriter(messages, true))
        .execute(arguments);
  }

  private void assertNoStackTrace() {
    assertFalse(messages.toString().contains("\tat "), messages.toString());
  }
}

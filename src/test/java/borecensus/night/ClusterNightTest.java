package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.simulate.FleetSimulator;
import borecensus.simulate.InvalidScenarioException;
import borecensus.simulate.ScenarioReader;
import borecensus.simulate.Scenarios;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same night in one process and on a cluster of processes: 36 vehicles of nine families, drawn
 * by the sample fleet's scenario with its seed.
 */
@Timeout(value = 10, unit = TimeUnit.MINUTES)
class ClusterNightTest {
  @TempDir private static Path folder;

  private static Path fleet;
  private static Map<String, List<String>> inOneProcess;
  private static StandaloneCluster cluster;

  @BeforeAll
  static void startTheClusterAndRunTheNightInOneProcess()
      throws IOException, InvalidScenarioException {
    fleet = folder.resolve("fleet");
    FleetSimulator.simulate(ScenarioReader.parse(Scenarios.text(Scenarios::fewVehicles)), fleet);
    cluster = new StandaloneCluster(Files.createDirectories(folder.resolve("spark")), 2);
    Path store = folder.resolve("store-of-one-process");
    Nights.run(fleet, store);
    inOneProcess = TableContent.all(store);
  }

  @AfterAll
  static void stopTheCluster() throws IOException {
    if (cluster != null) {
      cluster.close();
    }
  }

  @Test
  void aProgramThatNamesTheMasterPublishesTheSameRows() throws Exception {
    Path store = folder.resolve("store-of-a-program");
    Process night = cluster.runDirectly("program", arguments(store));
    assertEquals(0, night.waitFor(), () -> cluster.log("program"));
    assertEquals(inOneProcess, TableContent.all(store));
  }

  @Test
  void theReportOfARunTellsItsStepsAndItsTasksBesideTheSnapshots() throws IOException {
    List<JsonNode> reports = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder.resolve("store-of-one-process/runs"))) {
      for (Path file : (Iterable<Path>) files::iterator) {
        reports.add(new ObjectMapper().readTree(file.toFile()));
      }
    }
    assertEquals(1, reports.size());
    JsonNode report = reports.get(0);
    assertEquals(
        TableContent.current(folder.resolve("store-of-one-process")),
        report.get("snapshot_id").asText());
    assertEquals(36, report.get("engines").asInt());
    assertEquals(
        List.of("session", "intake", "ledger", "norms", "screening", "publish"),
        report.findValuesAsText("step").stream().distinct().toList());
    for (JsonNode step : report.get("steps")) {
      assertTrue(step.get("wall_seconds").asDouble() >= 0, step::toString);
      assertFalse(step.get("outcome").asText().isEmpty(), step::toString);
    }
    assertTrue(report.get("steps").get(5).get("work").get("rows_written").asLong() > 0);
  }

  /**
   * The worker goes when the first table is being written: the settled ledger is then computed and
   * kept in the workers' memory, and half of it is lost.
   */
  @Test
  void aSubmittedNightThatLosesAWorkerPublishesTheSameRows() throws Exception {
    Path store = folder.resolve("store-of-a-lost-worker");
    Process night = cluster.submit("submitted", arguments(store));
    boolean underWay =
        StandaloneCluster.waitUntil(() -> Files.isDirectory(store.resolve("snapshots")), night);
    assertTrue(underWay, () -> cluster.log("submitted"));
    assertEquals(1, cluster.executorsOf(0), "an executor is on the worker that goes");
    cluster.kill(0);
    assertFalse(Files.exists(store.resolve("CURRENT")), "the night is not over yet");
    assertEquals(0, night.waitFor(), () -> cluster.log("submitted"));
    assertTrue(cluster.log("submitted").contains("Lost executor"), () -> cluster.log("submitted"));
    assertEquals(inOneProcess, TableContent.all(store));
    cluster.replace(0);
  }

  private static String[] arguments(Path store) {
    List<String> arguments = new ArrayList<>(List.of("nightly", "--fleet", fleet.toString()));
    arguments.addAll(List.of("--store", store.toString()));
    arguments.addAll(List.of("--as-of", Nights.SAMPLE_AS_OF.toString()));
    SETTINGS.forEach((key, value) -> arguments.addAll(List.of("--conf", key + "=" + value)));
    return arguments.toArray(String[]::new);
  }

  /** Both workers take part; nothing is compiled for a handful of rows. */
  private static final Map<String, String> SETTINGS =
      Map.of(
          "spark.cores.max", "2",
          "spark.scheduler.minRegisteredResourcesRatio", "1.0",
          "spark.executor.memory", "600m",
          "spark.executor.extraJavaOptions", "-XX:+UseSerialGC -XX:TieredStopAtLevel=1",
          "spark.driver.host", "127.0.0.1",
          "spark.driver.bindAddress", "127.0.0.1",
          "spark.sql.codegen.wholeStage", "false",
          "spark.sql.codegen.factoryMode", "NO_CODEGEN");
}

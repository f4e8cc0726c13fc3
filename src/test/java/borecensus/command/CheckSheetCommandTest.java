package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.bay.SampleStore;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class CheckSheetCommandTest {
  private static final Path FRESH = Path.of("sample-datasets/fresh-sheet.csv");

  @TempDir private Path folder;

  private static Path store;

  @BeforeAll
  static void runTheNight() {
    store = SampleStore.folder();
  }

  private record Ended(int status, String out, String err) {}

  private static Ended run(Path store, Path sheet, String... more) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    List<String> args = new ArrayList<>(List.of("--store", store.toString()));
    args.addAll(List.of("--sheet", sheet.toString(), "--as-of", "2026-04-02"));
    args.addAll(List.of(more));
    CheckSheetCommand command =
        new CheckSheetCommand(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8));
    int status = Main.run(command, args.toArray(new String[0]));
    return new Ended(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  private Path sheet(String... replacements) throws IOException {
    String text = Files.readString(FRESH);
    for (int i = 0; i < replacements.length; i += 2) {
      assertTrue(text.contains(replacements[i]), replacements[i]);
      text = text.replace(replacements[i], replacements[i + 1]);
    }
    return Files.writeString(folder.resolve("sheet.csv"), text);
  }

  @Test
  void theStatusTellsTheOutcome() throws IOException {
    assertEquals(ExitStatus.INSPECT, run(store, FRESH).status());
    assertEquals(ExitStatus.DONE, run(store, sheet(",1190,", ",1390,")).status());
    assertEquals(ExitStatus.REPEAT, run(store, sheet(",1190,", ",,")).status());
    assertEquals(ExitStatus.UNUSABLE_INPUT, run(store, sheet("CEDAR-6G-0007", "NOBODY")).status());
  }

  @Test
  void helpAndReadmeDeclareEveryStatus() throws IOException {
    String help = new CommandLine(new CheckSheetCommand()).getUsageMessage();
    String readme = Files.readString(Path.of("README.md"));
    for (int status : List.of(ExitStatus.REPEAT, ExitStatus.INSPECT)) {
      assertTrue(help.contains(" " + status + " "), help);
      assertTrue(readme.contains(" " + status + " "), "README lacks " + status);
    }
  }

  @Test
  void theReadmeShowsWhatTheSampleSheetReallyGives() throws IOException {
    String readme = Files.readString(Path.of("README.md"));
    String said = run(store, FRESH).out();
    String shown =
        said.lines()
            .takeWhile(line -> !line.startsWith("Cautions"))
            .collect(Collectors.joining("\n"))
            .stripTrailing();
    assertTrue(readme.contains(shown), said);
  }

  @Test
  void jsonHoldsTheSameFigures() throws IOException {
    Ended json = run(store, FRESH, "--format", "json");
    JsonNode answer = new ObjectMapper().readTree(json.out());
    JsonNode sheet = answer.get("sheets").get(0);
    assertEquals("inspect", answer.get("outcome").asText());
    assertEquals(6, sheet.get("cylinders").size());
    assertEquals(1190, sheet.get("cylinders").get(2).get("reading").asDouble(), 1e-9);
    assertTrue(sheet.get("engine_status").get("marked").asBoolean());
    assertEquals(3, sheet.get("engine_status").get("suspect_cylinders").get(0).asInt());
    for (String date :
        List.of("inspected_on", "inspection_result", "cleared_on", "next_service_on")) {
      assertTrue(sheet.get("engine_status").get(date).isNull(), date);
    }
    assertEquals(json.status(), run(store, FRESH).status());
  }

  @Test
  void whatCannotBeReadIsOneLineAndStatusThree() throws IOException {
    Path noStore = folder.resolve("no-store");
    Path old = Files.createDirectories(folder.resolve("old-store"));
    Files.createDirectories(old.resolve("snapshots/2026-01-01-abc"));
    Files.writeString(old.resolve("CURRENT"), "2026-01-01-abc\n");
    Path empty = Files.writeString(folder.resolve("empty.csv"), "test_id,vehicle_id\n");
    for (Ended ended :
        List.of(
            run(noStore, FRESH),
            run(old, FRESH),
            run(store, folder.resolve("no-sheet.csv")),
            run(store, folder),
            run(store, empty))) {
      assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status(), ended.err());
      assertEquals(1, ended.err().lines().count(), ended.err());
      assertEquals("", ended.out());
    }
    assertTrue(run(old, FRESH).err().contains("run jobs/nightly once"));
  }

  @Test
  void theStoreIsOnlyRead() throws IOException {
    List<String> before = listing();
    run(store, FRESH);
    assertEquals(before, listing());
  }

  private static List<String> listing() throws IOException {
    try (Stream<Path> paths = Files.walk(store)) {
      TreeSet<String> files = new TreeSet<>();
      for (Path path : (Iterable<Path>) paths::iterator) {
        files.add(path + " " + Files.size(path) + " " + Files.getLastModifiedTime(path));
      }
      return List.copyOf(files);
    }
  }

  /** The launcher names its libraries: with these and no other the command must run. */
  @Test
  void theLibrariesThatTheLauncherNamesAreEnough() throws Exception {
    Matcher names =
        Pattern.compile("for name in ([a-z0-9 -]+);")
            .matcher(Files.readString(Path.of("jobs/check-sheet")));
    assertTrue(names.find());
    List<String> path = new ArrayList<>(List.of(Path.of("target/classes").toString()));
    String all =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    for (String name : names.group(1).split(" ")) {
      List<String> found =
          Arrays.stream(all.split(File.pathSeparator))
              .filter(jar -> Path.of(jar).getFileName().toString().matches(name + "-[0-9].*\\.jar"))
              .toList();
      assertEquals(1, found.size(), name + " in " + all);
      path.addAll(found);
    }
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                String.join(File.pathSeparator, path),
                CheckSheetMain.class.getName(),
                "--store",
                store.toString(),
                "--sheet",
                FRESH.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(ExitStatus.INSPECT, process.waitFor(), said);
    assertFalse(said.contains("Exception"), said);
  }
}

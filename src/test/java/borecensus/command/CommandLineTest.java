package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.SoftwareVersion;
import borecensus.publish.StoreLock;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** Wrong use and unusable input: one clear line, the right status, and an untouched store. */
class CommandLineTest {
  @TempDir private Path folder;

  /** What a command said and how it ended. */
  private record Ended(int status, String err) {
    boolean saidOneLineWith(String part) {
      return err.lines().count() == 1 && err.contains(part);
    }
  }

  private static Ended run(String... args) {
    PrintStream before = System.err;
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    System.setErr(new PrintStream(err, true, StandardCharsets.UTF_8));
    try {
      return new Ended(Main.run(args), err.toString(StandardCharsets.UTF_8));
    } finally {
      System.setErr(before);
    }
  }

  private Path fleet() throws IOException {
    Path fleet = Files.createDirectories(folder.resolve("fleet"));
    Files.createDirectories(fleet.resolve("sheets"));
    Files.writeString(fleet.resolve("families.csv"), "family_id,fuel,cylinders\nF,petrol,4\n");
    Files.writeString(fleet.resolve("vehicles.csv"), "vehicle_id,family_id\nV,F\n");
    Files.writeString(fleet.resolve("sites.csv"), "site_id,elevation_m\nS,0\n");
    Files.writeString(fleet.resolve("gauges.csv"), "gauge_id,unit\nG,psi\n");
    return fleet;
  }

  private Ended nightly() {
    return run(
        "nightly",
        "--fleet",
        folder.resolve("fleet").toString(),
        "--store",
        folder.resolve("store").toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"families.csv", "vehicles.csv", "sites.csv", "gauges.csv"})
  void aMissingRegisterIsNamedAndTheStoreIsNotEvenMade(String register) throws IOException {
    Files.delete(fleet().resolve(register));
    Ended ended = nightly();
    assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status());
    assertTrue(ended.saidOneLineWith(register), ended.err());
    assertFalse(Files.exists(folder.resolve("store")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"families.csv", "vehicles.csv", "sites.csv", "gauges.csv"})
  void aRegisterWithoutItsColumnsIsNamedWithTheColumn(String register) throws IOException {
    Files.writeString(fleet().resolve(register), "colour\nred\n");
    Ended ended = nightly();
    assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status());
    assertTrue(ended.saidOneLineWith(register), ended.err());
    assertTrue(ended.err().contains("_id'"), ended.err());
  }

  @Test
  void anOptionalRegisterThatCannotBeReadIsNamedToo() throws IOException {
    Files.writeString(fleet().resolve("repairs.csv"), "colour\nred\n");
    Ended ended = nightly();
    assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status());
    assertTrue(ended.saidOneLineWith("repairs.csv"), ended.err());
  }

  @Test
  void aFleetFolderThatDoesNotExistIsUnusableInput() {
    assertEquals(ExitStatus.UNUSABLE_INPUT, nightly().status());
  }

  @Test
  void aStoreThatAnotherRunHoldsIsLeftAlone() throws IOException {
    fleet();
    StoreLock held = StoreLock.take(folder.resolve("store"));
    try {
      Ended ended = nightly();
      assertEquals(ExitStatus.STORE_BUSY, ended.status());
      assertTrue(ended.saidOneLineWith("another run"), ended.err());
    } finally {
      held.close();
    }
  }

  @Test
  void anAddressThatNoFileSystemAnswersIsOneLineAndStatusThree() {
    Ended ended = run("nightly", "--fleet", "s3a://bucket/fleet", "--store", "s3a://bucket/store");
    assertEquals(ExitStatus.UNUSABLE_INPUT, ended.status(), ended.err());
    assertTrue(ended.saidOneLineWith("the folder s3a://bucket/fleet cannot be used"), ended.err());
  }

  /** The launcher gives a command that is asked for help these and nothing else. */
  @Test
  void helpNeedsNoLibraryButTheCommandLine() throws Exception {
    List<String> commands = new ArrayList<>(new CommandLine(new Main()).getSubcommands().keySet());
    assertTrue(commands.size() > 5, commands::toString);
    for (String command : commands) {
      Process process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-XX:TieredStopAtLevel=1",
                  "-cp",
                  "target/classes" + File.pathSeparator + placeOf(CommandLine.class),
                  Main.class.getName(),
                  command,
                  "--help")
              .redirectErrorStream(true)
              .start();
      String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertEquals(0, process.waitFor(), said);
      assertTrue(said.contains(command) && said.contains("--help"), said);
    }
  }

  private static String placeOf(Class<?> known) throws URISyntaxException {
    return Path.of(known.getProtectionDomain().getCodeSource().getLocation().toURI()).toString();
  }

  @Test
  void everyCommandTellsItsVersion() {
    PrintStream before = System.out;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    System.setOut(new PrintStream(out, true, StandardCharsets.UTF_8));
    try {
      assertEquals(0, run("--version").status());
      assertEquals(0, run("nightly", "--version").status());
    } finally {
      System.setOut(before);
    }
    List<String> told = out.toString(StandardCharsets.UTF_8).lines().toList();
    String version = "borecensus " + SoftwareVersion.get();
    assertEquals(List.of(version, version), told);
  }

  @Test
  void wrongUseIsOneLineAndStatusTwo() {
    assertAll(
        () -> assertEquals(ExitStatus.WRONG_USE, run("nightly", "--fleet", "x").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, run("nightly", "--no-such-option").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, run("nightly", "--as-of", "tomorrow").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, run("nightly", "--keep-snapshots", "0").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, run("query", "SELECT 1").status()),
        () -> assertEquals(ExitStatus.WRONG_USE, run("no-such-command").status()),
        () -> assertTrue(run("nightly", "--fleet", "x").saidOneLineWith("--store")));
  }
}

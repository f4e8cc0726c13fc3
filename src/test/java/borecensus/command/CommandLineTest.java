package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.publish.StoreLock;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

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

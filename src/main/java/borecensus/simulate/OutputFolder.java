package borecensus.simulate;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** The folder that a simulated fleet goes into; only an empty one or an earlier fleet is used. */
record OutputFolder(Path path) {
  /** The file by which a simulated fleet is known. */
  static final String MARKER = "SIMULATED.txt";

  private static final String FIRST_LINE = "An invented fleet, written by simulate-fleet.";
  private static final List<String> WRITTEN =
      List.of(
          "sheets",
          "truth",
          "families.csv",
          "vehicles.csv",
          "sites.csv",
          "gauges.csv",
          "repairs.csv",
          "findings.csv");

  /** Says that a folder holds something that is not ours to delete. */
  static final class NotOurs extends IOException {
    private static final long serialVersionUID = 1L;

    NotOurs(Path path) {
      super(path + " is not empty and holds no simulated fleet; name an empty or new folder");
    }
  }

  /**
   * Empties the folder of an earlier fleet and marks it.
   *
   * @throws NotOurs when the folder holds something else
   */
  void prepare(Scenario scenario) throws IOException {
    if (Files.exists(path) && !usable()) {
      throw new NotOurs(path);
    }
    Files.createDirectories(path);
    for (String name : WRITTEN) {
      delete(path.resolve(name));
    }
    String text =
        FIRST_LINE
            + "\nScenario "
            + scenario.name()
            + ", seed "
            + scenario.seed()
            + ", as of "
            + scenario.asOf()
            + ".\nNo vehicle, engine, maker or place in it exists. What is true"
            + " of it stands in truth/.\n";
    Files.writeString(path.resolve(MARKER), text, StandardCharsets.UTF_8);
  }

  private boolean usable() throws IOException {
    if (!Files.isDirectory(path)) {
      return false;
    }
    Path marker = path.resolve(MARKER);
    if (Files.isRegularFile(marker)) {
      return Files.readString(marker, StandardCharsets.UTF_8).startsWith(FIRST_LINE);
    }
    try (Stream<Path> entries = Files.list(path)) {
      return entries.findAny().isEmpty();
    }
  }

  private static void delete(Path root) throws IOException {
    if (!Files.exists(root)) {
      return;
    }
    try (Stream<Path> tree = Files.walk(root)) {
      for (Path entry : tree.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(entry);
      }
    }
  }
}

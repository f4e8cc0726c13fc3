package borecensus.bay;

import borecensus.night.NightProgress;
import borecensus.night.NightSettings;
import borecensus.night.NightlyJob;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** A store with the night of the bundled fleet in it, made once for all tests that only read it. */
public final class SampleStore {
  /** The date of the night. */
  public static final LocalDate AS_OF = LocalDate.of(2026, 3, 31);

  /** The bundled fleet. */
  public static final Path FLEET = Path.of("sample-datasets/highland-line");

  private static final NightProgress SILENT =
      new NightProgress() {
        @Override
        public void begins(String stage) {}

        @Override
        public void ends(String outcome) {}
      };

  private static Path store;

  private SampleStore() {}

  /** The store's folder. */
  public static synchronized Path folder() {
    if (store == null) {
      try {
        Path folder = Files.createTempDirectory("sample-store");
        Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(folder)));
        night(FLEET, folder);
        store = folder;
      } catch (IOException failure) {
        throw new UncheckedIOException(failure);
      }
    }
    return store;
  }

  /** Runs a night. */
  static void night(Path fleet, Path store) {
    new NightlyJob(
            new NightSettings(
                fleet,
                store,
                AS_OF,
                NightSettings.DEFAULT_MAX_FALSE_SHARE,
                NightSettings.DEFAULT_KEEP_SNAPSHOTS,
                NightSettings.DEFAULT_LARGE_FLEET_FROM,
                Map.of()),
            SILENT)
        .run();
  }

  private static void delete(Path folder) {
    try (Stream<Path> paths = Files.walk(folder)) {
      List<Path> deepestFirst = paths.sorted(Comparator.reverseOrder()).toList();
      for (Path path : deepestFirst) {
        Files.delete(path);
      }
    } catch (IOException leftBehind) {
      System.err.println("the folder " + folder + " is left behind: " + leftBehind);
    }
  }
}

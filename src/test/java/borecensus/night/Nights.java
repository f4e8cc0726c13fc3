package borecensus.night;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.stream.Stream;

/** Runs nights for tests. */
final class Nights {
  static final LocalDate SAMPLE_AS_OF = LocalDate.of(2026, 3, 31);
  static final Path SAMPLE = Path.of("sample-datasets/highland-line");

  static final NightProgress SILENT =
      new NightProgress() {
        @Override
        public void begins(String stage) {}

        @Override
        public void ends(String outcome) {}
      };

  private Nights() {}

  static NightResult run(Path fleet, Path store) {
    return run(fleet, store, Map.of());
  }

  static NightResult run(Path fleet, Path store, Map<String, String> sparkConf) {
    return run(
        fleet, store, SAMPLE_AS_OF, NightSettings.DEFAULT_LARGE_FLEET_FROM, sparkConf, SILENT);
  }

  static NightResult run(
      Path fleet,
      Path store,
      LocalDate asOf,
      long largeFleetFrom,
      Map<String, String> sparkConf,
      NightProgress progress) {
    return new NightlyJob(
            new NightSettings(
                fleet,
                store,
                asOf,
                NightSettings.DEFAULT_MAX_FALSE_SHARE,
                NightSettings.DEFAULT_KEEP_SNAPSHOTS,
                largeFleetFrom,
                sparkConf),
            progress)
        .run();
  }

  /** Copies a folder tree. */
  static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> paths = Files.walk(from)) {
      for (Path path : (Iterable<Path>) paths::iterator) {
        Path target = to.resolve(from.relativize(path).toString());
        if (Files.isDirectory(path)) {
          Files.createDirectories(target);
        } else {
          Files.copy(path, target);
        }
      }
    }
  }
}

package borecensus.night;

import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import borecensus.publish.StoreException;
import borecensus.report.PageNames;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * The folder of a report. Pages are written by many tasks, some of them twice when a task is
 * repeated: each page is whole or not there.
 *
 * @param folder of the report
 */
record PageFolder(TravellingFolder folder) implements Serializable {
  /** The empty folder of a new snapshot's report. */
  static PageFolder create(Path snapshot) {
    Path folder = snapshot.resolve("report");
    try {
      Files.createDirectories(folder.resolve(PageNames.ENGINES));
      Files.createDirectories(folder.resolve(PageNames.FAMILIES));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return new PageFolder(TravellingFolder.of(folder));
  }

  /** Writes one page under its name from the report's folder. */
  void write(String name, String html) {
    try {
      WholeFile.write(folder.file(name), page -> Files.writeString(page, html));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  /**
   * Checks that exactly these engine and family pages are there, and clears what a task that died
   * has left.
   *
   * @throws StoreException when a page is missing or one too many
   */
  void verify(SortedSet<String> expected) {
    SortedSet<String> written = new TreeSet<>();
    for (String sub : List.of(PageNames.ENGINES, PageNames.FAMILIES)) {
      Path pages = folder.file(sub);
      try {
        WholeFile.clear(pages);
        try (Stream<Path> files = Files.list(pages)) {
          files.forEach(file -> written.add(sub + "/" + file.getFileName()));
        }
      } catch (IOException failure) {
        throw new UncheckedIOException(failure);
      }
    }
    if (!written.equals(expected)) {
      throw new StoreException(
          "the report was not written as it should be: %d pages where %d were expected"
              .formatted(written.size(), expected.size()));
    }
  }
}

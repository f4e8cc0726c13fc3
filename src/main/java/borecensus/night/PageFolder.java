package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.publish.StoreException;
import borecensus.report.PageNames;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * The folder of a report. Pages are written by many tasks, some of them twice when a task is
 * repeated: each page is whole or not there. Where a file shows before it is closed, it is written
 * aside and renamed.
 *
 * @param path as text, since it travels to the workers
 * @param hadoopSettings with which a worker finds it, when it is no local folder
 */
record PageFolder(String path, Map<String, String> hadoopSettings) implements Serializable {
  private static final String PART = ".part";

  /** The empty folder of a new snapshot's report. */
  static PageFolder create(Path snapshot) {
    Path folder = snapshot.resolve("report");
    try {
      Files.createDirectories(folder.resolve(PageNames.ENGINES));
      Files.createDirectories(folder.resolve(PageNames.FAMILIES));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return new PageFolder(folder.toString(), Folders.settings(folder));
  }

  private Path folder() {
    return Folders.path(path, hadoopSettings);
  }

  /** Writes one page under its name from the report's folder. */
  void write(String name, String html) {
    Path page = folder().resolve(name);
    Path aside = page.resolveSibling(page.getFileName() + "." + UUID.randomUUID() + PART);
    try {
      if (Folders.showsFilesOnceClosed(page)) {
        Files.writeString(page, html);
        return;
      }
      Files.writeString(aside, html);
      Files.move(aside, page, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
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
      try (Stream<Path> files = Files.list(folder().resolve(sub))) {
        for (Path file : (Iterable<Path>) files::iterator) {
          if (file.toString().endsWith(PART)) {
            Files.delete(file);
          } else {
            written.add(sub + "/" + file.getFileName());
          }
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

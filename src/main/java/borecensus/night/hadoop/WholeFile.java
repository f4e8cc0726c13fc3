package borecensus.night.hadoop;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.UUID;

/**
 * Files that are whole or not there, though many tasks write them, some of them twice when a task
 * is repeated. Where a file shows before it is closed, it is written aside and renamed.
 */
public final class WholeFile {
  private static final String PART = ".part";

  private WholeFile() {}

  /** Fills a file that is not there yet. */
  @FunctionalInterface
  public interface Content {
    /** Writes to a path, which need not be the file's last one. */
    void writeTo(Path file) throws IOException;
  }

  /** Writes a file in the place of one that may be there. */
  public static void write(Path file, Content content) throws IOException {
    if (Folders.showsFilesOnceClosed(file)) {
      content.writeTo(file);
      return;
    }
    Path aside = aside(file);
    content.writeTo(aside);
    Files.move(aside, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  /** Where a file is written before it takes its name; {@link #clear} knows what was left there. */
  public static Path aside(Path file) {
    return file.resolveSibling(file.getFileName() + "." + UUID.randomUUID() + PART);
  }

  /** Clears from a folder what tasks that died have left. */
  public static void clear(Path folder) throws IOException {
    try (DirectoryStream<Path> left = Files.newDirectoryStream(folder, "*" + PART)) {
      for (Path file : left) {
        Files.delete(file);
      }
    }
  }
}

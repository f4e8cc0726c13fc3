package borecensus.publish;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Files that are on the disk when a method returns. */
final class DurableFiles {
  private DurableFiles() {}

  /** Puts the text in place of the file in one step: readers see the old text or the new. */
  static void replace(Path file, String text) throws IOException {
    Path aside = file.resolveSibling(file.getFileName() + ".new");
    Files.writeString(aside, text, StandardCharsets.UTF_8);
    sync(aside);
    Files.move(aside, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    sync(file.toAbsolutePath().getParent());
  }

  /** Flushes a file, or the entries of a folder. */
  static void sync(Path path) throws IOException {
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }

  /** Flushes every file and folder of a tree. */
  static void syncTree(Path root) throws IOException {
    try (Stream<Path> paths = Files.walk(root)) {
      for (Path path : (Iterable<Path>) paths::iterator) {
        sync(path);
      }
    }
  }

  /** Deletes a tree; nothing happens when there is none. */
  static void deleteTree(Path root) throws IOException {
    if (!Files.exists(root)) {
      return;
    }
    List<Path> deepestFirst;
    try (Stream<Path> paths = Files.walk(root)) {
      deepestFirst = paths.sorted(Comparator.reverseOrder()).toList();
    }
    for (Path path : deepestFirst) {
      Files.delete(path);
    }
  }
}

package borecensus.publish;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;

/** Files that are on the disk when a method returns. */
final class DurableFiles {
  private static final int FLUSHED_AT_A_TIME = 8;

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

  /**
   * Flushes every file and folder of a tree, some at a time: what takes long is to wait for the
   * disk, which writes many as quickly as one.
   */
  static void syncTree(Path root) throws IOException {
    List<Callable<Void>> flushes = new ArrayList<>();
    try (Stream<Path> paths = Files.walk(root)) {
      paths.forEach(path -> flushes.add(() -> flushed(path)));
    }
    ExecutorService flushing = Executors.newFixedThreadPool(FLUSHED_AT_A_TIME);
    try {
      for (Future<Void> flush : flushing.invokeAll(flushes)) {
        flush.get();
      }
    } catch (ExecutionException failure) {
      Throwable cause = failure.getCause();
      throw new IOException("not all below " + root + " reached the disk: " + cause, cause);
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException("stopped before all below " + root + " reached the disk");
    } finally {
      flushing.shutdown();
    }
  }

  private static Void flushed(Path path) throws IOException {
    sync(path);
    return null;
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

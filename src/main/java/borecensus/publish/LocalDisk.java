package borecensus.publish;

import java.io.IOException;
import java.nio.file.Path;

/** A local file system: atomic renames, flushed files, and locks that end with their process. */
public final class LocalDisk implements StoreDisk {
  @Override
  public void replace(Path file, String text) throws IOException {
    DurableFiles.replace(file, text);
  }

  @Override
  public void flush(Path path) throws IOException {
    DurableFiles.sync(path);
  }

  @Override
  public void flushTree(Path root) throws IOException {
    DurableFiles.syncTree(root);
  }

  @Override
  public void deleteTree(Path root) throws IOException {
    DurableFiles.deleteTree(root);
  }

  @Override
  public Hold hold(Path store) {
    return StoreLock.take(store);
  }
}

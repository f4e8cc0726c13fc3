package borecensus.publish;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

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
  public void share(Path file, Path secondName) throws IOException {
    try {
      Files.createLink(secondName, file);
    } catch (UnsupportedOperationException | FileSystemException noLinksHere) {
      Files.copy(file, secondName, StandardCopyOption.REPLACE_EXISTING);
    }
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

package borecensus.publish;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Holds a store for one run. The operating system drops the lock when the process ends, however it
 * ends, so a crashed night never blocks the next.
 */
public final class StoreLock implements StoreDisk.Hold {
  private final FileChannel channel;
  private final FileLock lock;

  private StoreLock(FileChannel channel, FileLock lock) {
    this.channel = channel;
    this.lock = lock;
  }

  /**
   * Takes the lock, making the store folder if there is none.
   *
   * @throws StoreBusyException when another run holds it
   * @throws StoreException when the folder cannot be used
   */
  public static StoreLock take(Path store) {
    try {
      Files.createDirectories(store);
      FileChannel channel =
          FileChannel.open(
              store.resolve(".lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      FileLock lock = tryLock(channel);
      if (lock == null) {
        channel.close();
        throw new StoreBusyException("another run holds the store " + store);
      }
      return new StoreLock(channel, lock);
    } catch (IOException unusable) {
      throw new StoreException("the store " + store + " cannot be used: " + unusable, unusable);
    }
  }

  private static FileLock tryLock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException heldByThisProcess) {
      return null;
    }
  }

  @Override
  public void close() {
    try {
      lock.release();
      channel.close();
    } catch (IOException failure) {
      throw new StoreException("the store's lock cannot be released", failure);
    }
  }
}

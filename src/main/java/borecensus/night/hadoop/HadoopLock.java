package borecensus.night.hadoop;

import borecensus.publish.StoreBusyException;
import borecensus.publish.StoreDisk;
import borecensus.publish.StoreException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.apache.hadoop.fs.FSDataOutputStreamBuilder;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Options;
import org.apache.hadoop.fs.Path;

/**
 * Holds a store by a file that only one run can create. Nothing takes the file away when a machine
 * dies with its run: the message then says who left it, and a person has to delete it.
 */
final class HadoopLock implements StoreDisk.Hold {
  private static final int MOST_SHOWN = 200;

  private final FileSystem hadoop;
  private final Path file;

  private HadoopLock(FileSystem hadoop, Path file) {
    this.hadoop = hadoop;
    this.file = file;
  }

  /**
   * Takes the lock, making the store folder if there is none.
   *
   * @throws StoreBusyException when another run holds it, or has left it behind
   * @throws StoreException when the folder cannot be used
   */
  static HadoopLock take(FileSystem hadoop, Path store) {
    Path file = new Path(store, ".lock");
    String mine = mine();
    try {
      hadoop.mkdirs(store);
      create(hadoop, file, mine);
      hadoop.deleteOnExit(file);
      return new HadoopLock(hadoop, file);
    } catch (IOException failure) {
      String holder = holder(hadoop, file);
      if (holder.isEmpty() || holder.equals(mine)) {
        throw new StoreException(
            "the store " + store + " cannot be used: " + failure.getMessage(), failure);
      }
      throw new StoreBusyException(
          "another run holds the store %s (%s); if none is running any more, delete %s"
              .formatted(store, holder, file));
    }
  }

  /** Object stores that can refuse to replace an object do so here when asked; others ignore it. */
  private static void create(FileSystem hadoop, Path file, String mine) throws IOException {
    FSDataOutputStreamBuilder<?, ?> builder = hadoop.createFile(file);
    builder.overwrite(false);
    builder.opt(Options.CreateFileOptionKeys.FS_OPTION_CREATE_CONDITIONAL_OVERWRITE, true);
    try (OutputStream out = builder.build()) {
      out.write(mine.getBytes(StandardCharsets.UTF_8));
    }
  }

  private static String mine() {
    return "%s, since %s, %s"
        .formatted(
            ManagementFactory.getRuntimeMXBean().getName(),
            Instant.now().truncatedTo(ChronoUnit.SECONDS),
            UUID.randomUUID());
  }

  private static String holder(FileSystem hadoop, Path file) {
    try (InputStream in = hadoop.open(file)) {
      String text = new String(in.readNBytes(MOST_SHOWN), StandardCharsets.UTF_8);
      return text.isEmpty() ? "one that has just begun" : text.replaceAll("\\p{Cntrl}+", " ");
    } catch (IOException none) {
      return "";
    }
  }

  @Override
  public void close() {
    try {
      hadoop.delete(file, false);
      hadoop.cancelDeleteOnExit(file);
    } catch (IOException failure) {
      throw new StoreException("the store's lock cannot be released: " + failure, failure);
    }
  }
}

package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import borecensus.publish.StoreException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.Serializable;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.GZIPOutputStream;

/**
 * The folder of buckets of vehicles. They are written by many tasks, some of them twice when a task
 * is repeated: each bucket is whole or not there. Where a file shows before it is closed, it is
 * written aside and renamed.
 *
 * @param folder of the buckets
 */
record BucketFolder(TravellingFolder folder) implements Serializable {
  private static final int BUFFER_BYTES = 1 << 16;

  /** A new folder. */
  static BucketFolder create(Path folder) throws IOException {
    Files.createDirectories(folder);
    return new BucketFolder(TravellingFolder.of(folder));
  }

  /** Opens the file of one bucket to be written. */
  Bucket open(int bucket, String name) throws IOException {
    Path file = folder.file("bucket=" + bucket).resolve(name);
    Files.createDirectories(file.getParent());
    Path written =
        Folders.showsFilesOnceClosed(file)
            ? file
            : WholeFile.aside(folder.file(String.valueOf(bucket)));
    return new Bucket(file, written);
  }

  /** Clears what tasks that died have left. */
  void clearUnfinished() throws IOException {
    WholeFile.clear(folder.path());
  }

  /** One bucket while it is written. */
  static final class Bucket extends OutputStream {
    private final Path file;
    private final Path written;
    private final OutputStream out;
    private final CRC32 content = new CRC32();
    private long contentBytes;

    private Bucket(Path file, Path written) throws IOException {
      this.file = file;
      this.written = written;
      this.out = new QuickGzip(Files.newOutputStream(written));
    }

    @Override
    public void write(int one) throws IOException {
      write(new byte[] {(byte) one}, 0, 1);
    }

    @Override
    public void write(byte[] bytes, int from, int count) throws IOException {
      out.write(bytes, from, count);
      content.update(bytes, from, count);
      contentBytes += count;
    }

    @Override
    public void close() throws IOException {
      out.close();
    }

    /**
     * Gives the closed file its name, and reads its end again: a gzip file ends with the CRC-32 and
     * the length of its content (RFC 1952, section 2.3).
     *
     * @throws StoreException when that is not what was written
     */
    void publish() throws IOException {
      if (!file.equals(written)) {
        Files.move(
            written, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      }
      ByteBuffer end = ByteBuffer.allocate(2 * Integer.BYTES).order(ByteOrder.LITTLE_ENDIAN);
      try (SeekableByteChannel channel = Files.newByteChannel(file)) {
        channel.position(Math.max(0, channel.size() - end.capacity()));
        while (end.hasRemaining() && channel.read(end) >= 0) {
          continue;
        }
      }
      end.flip();
      if (end.remaining() != end.capacity()
          || end.getInt() != (int) content.getValue()
          || end.getInt() != (int) contentBytes) {
        throw new StoreException("the file " + file + " was not written as it should be");
      }
    }
  }

  /** At the quickest level: vehicles take a third more room, in a quarter of the time. */
  private static final class QuickGzip extends GZIPOutputStream {
    QuickGzip(OutputStream file) throws IOException {
      super(file, BUFFER_BYTES);
      def.setLevel(Deflater.BEST_SPEED);
    }
  }
}

package borecensus.night.hadoop;

import borecensus.publish.StoreDisk;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileContext;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Options;

/**
 * Publishing on Hadoop's file systems. What is relied upon:
 *
 * <ul>
 *   <li>a file that was written and closed is seen as a whole by everyone, and stays;
 *   <li>what has been written or deleted is listed as such at once;
 *   <li>either a rename over an existing file, or the closing of a file written over an old one, is
 *       one step ({@link Pointer}).
 * </ul>
 *
 * <p>Renaming folders is not relied upon: where Spark does so while it writes a table, and a file
 * system copies instead, the table's rows are counted before anything is published.
 */
final class HadoopDisk implements StoreDisk {
  private final HadoopFiles files;
  private final FileSystem hadoop;

  HadoopDisk(HadoopFiles files) {
    this.files = files;
    this.hadoop = files.hadoop();
  }

  @Override
  public void replace(Path file, String text) throws IOException {
    if (files.pointer() == Pointer.PUT) {
      write(in(file), text);
    } else {
      org.apache.hadoop.fs.Path aside = in(file).suffix(".new");
      write(aside, text);
      FileContext.getFileContext(files.home(), hadoop.getConf())
          .rename(aside, in(file), Options.Rename.OVERWRITE);
    }
    if (!text.equals(read(in(file)))) {
      throw new IOException(file + " does not hold what was written to it");
    }
  }

  @Override
  public void flush(Path path) throws IOException {
    hadoop.getFileStatus(in(path));
  }

  @Override
  public void flushTree(Path root) throws IOException {
    flush(root);
  }

  /** By way of this machine: Hadoop knows neither second names nor copies made by the servers. */
  @Override
  public void share(Path file, Path secondName) throws IOException {
    Configuration configuration = hadoop.getConf();
    FileUtil.copy(hadoop, in(file), hadoop, in(secondName), false, true, configuration);
  }

  @Override
  public void deleteTree(Path root) throws IOException {
    hadoop.delete(in(root), true);
  }

  @Override
  public Hold hold(Path store) {
    files.pointer();
    return HadoopLock.take(hadoop, in(store));
  }

  private void write(org.apache.hadoop.fs.Path file, String text) throws IOException {
    try (FSDataOutputStream out = hadoop.create(file, true)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
      if (out.hasCapability("hsync")) {
        out.hsync();
      }
    }
  }

  private String read(org.apache.hadoop.fs.Path file) throws IOException {
    try (InputStream in = hadoop.open(file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static org.apache.hadoop.fs.Path in(Path path) {
    return ((HadoopPath) path).hadoop();
  }
}

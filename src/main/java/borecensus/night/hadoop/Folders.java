package borecensus.night.hadoop;

import borecensus.publish.LocalDisk;
import borecensus.publish.StoreDisk;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.Map;
import java.util.regex.Pattern;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.hadoop.util.HadoopOutputFile;
import org.apache.parquet.io.InputFile;
import org.apache.parquet.io.LocalInputFile;
import org.apache.parquet.io.LocalOutputFile;
import org.apache.parquet.io.OutputFile;

/** Folders by what people write: a local path, or an address such as {@code hdfs://host/path}. */
public final class Folders {
  private static final Pattern ADDRESS = Pattern.compile("[A-Za-z][A-Za-z0-9+.-]*://.*");

  private Folders() {}

  /**
   * The path of a folder; nothing is said about whether it is there.
   *
   * @param settings of Hadoop, beside those of its files
   * @throws UnusableFolderException when the address has no file system that can be reached
   */
  public static Path path(String text, Map<String, String> settings) {
    if (!ADDRESS.matcher(text).matches()) {
      return Path.of(text);
    }
    try {
      // Hadoop's own paths take a blank as it stands, and know where the host's name ends.
      URI address = new org.apache.hadoop.fs.Path(text).toUri();
      if (address.getScheme().equals("file")) {
        return Path.of(address.getPath());
      }
      FileSystem files = FileSystem.get(address, configuration(settings));
      String path = address.getPath().isEmpty() ? "/" : address.getPath();
      return new HadoopFiles(files, settings).getPath(path);
    } catch (IOException | RuntimeException unusable) {
      throw new UnusableFolderException(
          "the folder " + text + " cannot be used: " + rootOf(unusable), unusable);
    }
  }

  /** The settings with which {@link #path} finds the folder again, on another machine too. */
  public static Map<String, String> settings(Path folder) {
    return folder.getFileSystem() instanceof HadoopFiles files ? files.settings() : Map.of();
  }

  /** The publishing steps of the file system that a folder is on. */
  public static StoreDisk disk(Path folder) {
    return folder.getFileSystem() instanceof HadoopFiles files
        ? new HadoopDisk(files)
        : new LocalDisk();
  }

  /**
   * A folder as Spark takes it to write to. A URI would not do: Hadoop takes its escapes for names.
   */
  public static String target(Path folder) {
    return folder instanceof HadoopPath path
        ? path.hadoop().toString()
        : "file:" + folder.toAbsolutePath();
  }

  /** The same to read from, where Spark would take some characters of a name for a pattern. */
  public static String source(Path folder) {
    return target(folder).replaceAll("[\\[\\]{}*?\\\\]", "\\\\$0");
  }

  /** Tells whether a new file is seen by nobody before it is written and closed. */
  public static boolean showsFilesOnceClosed(Path file) {
    return file.getFileSystem() instanceof HadoopFiles files && files.pointer() == Pointer.PUT;
  }

  /** A Parquet file to be read. */
  public static InputFile parquet(Path file) throws IOException {
    return file instanceof HadoopPath path
        ? HadoopInputFile.fromPath(path.hadoop(), path.getFileSystem().hadoop().getConf())
        : new LocalInputFile(file);
  }

  /** A Parquet file to be written. */
  public static OutputFile parquetTarget(Path file) throws IOException {
    return file instanceof HadoopPath path
        ? HadoopOutputFile.fromPath(path.hadoop(), path.getFileSystem().hadoop().getConf())
        : new LocalOutputFile(file);
  }

  private static Configuration configuration(Map<String, String> settings) {
    Configuration configuration = new Configuration();
    settings.forEach(configuration::set);
    return configuration;
  }

  private static String rootOf(Throwable failure) {
    Throwable root = failure;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return String.valueOf(root).replaceAll("\\p{Cntrl}+", " ");
  }
}

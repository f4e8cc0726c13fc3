package borecensus.night;

import borecensus.night.hadoop.Folders;
import java.nio.file.Path;
import java.util.Map;
import java.util.regex.Pattern;

/** Fleet folders and stores by what a person writes. */
public final class NightFolders {
  private static final Pattern SCHEME = Pattern.compile("[A-Za-z][A-Za-z0-9+.-]*://.*");

  private NightFolders() {}

  /**
   * A local folder, or one on a file system that Hadoop knows, such as {@code hdfs://host/path}.
   *
   * @param sparkConf settings for Spark; those of Hadoop in it are heeded
   * @throws borecensus.night.hadoop.UnusableFolderException when the address has no file system
   *     that can be reached
   */
  public static Path at(String text, Map<String, String> sparkConf) {
    return SCHEME.matcher(text).matches()
        ? Folders.path(text, SparkSessions.hadoopSettings(sparkConf))
        : Path.of(text);
  }
}

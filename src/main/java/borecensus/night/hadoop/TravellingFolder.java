package borecensus.night.hadoop;

import java.io.Serializable;
import java.nio.file.Path;
import java.util.Map;

/**
 * A folder that is told to the workers, who find it on whatever file system it is.
 *
 * @param text the folder's path, since a path itself does not travel
 * @param hadoopSettings with which a worker finds it, when it is no local folder
 */
public record TravellingFolder(String text, Map<String, String> hadoopSettings)
    implements Serializable {

  /** The folder of a path. */
  public static TravellingFolder of(Path folder) {
    return new TravellingFolder(folder.toAbsolutePath().toString(), Folders.settings(folder));
  }

  /** The folder where this runs. */
  public Path path() {
    return Folders.path(text, hadoopSettings);
  }

  /** A file of it. */
  public Path file(String name) {
    return path().resolve(name);
  }

  /** The file of a number among Parquet files that are named by their numbers alone. */
  public Path parquetPart(int number) {
    return file("part-%05d.zstd.parquet".formatted(number));
  }
}

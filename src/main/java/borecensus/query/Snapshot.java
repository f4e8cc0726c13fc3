package borecensus.query;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A published snapshot: its id and the Parquet files of each table.
 *
 * @param id the id that CURRENT named
 * @param tables files in name order by table name; a folder without Parquet files is no table
 */
public record Snapshot(String id, SortedMap<String, List<Path>> tables) {

  private static final Pattern ID = Pattern.compile("[A-Za-z0-9._-]+");
  private static final Pattern ONLY_DOTS = Pattern.compile("\\.+");
  private static final int MAX_ID_BYTES = 200;

  public Snapshot {
    tables = new TreeMap<>(tables);
  }

  /**
   * Reads CURRENT once and lists that snapshot, so that the answer never mixes two nights.
   *
   * @throws StoreUnusableException when there is no store, no CURRENT, or no such snapshot, or when
   *     CURRENT holds anything but an id
   */
  public static Snapshot current(Path store) throws StoreUnusableException {
    if (!Files.isDirectory(store)) {
      throw new StoreUnusableException("there is no store folder " + store);
    }
    String id = readId(store.resolve("CURRENT"));
    Path folder = store.resolve("snapshots").resolve(id);
    if (!Files.isDirectory(folder)) {
      throw new StoreUnusableException(
          "CURRENT names snapshot " + id + ", but it is not in " + store);
    }
    try {
      return new Snapshot(id, tablesIn(folder.toRealPath()));
    } catch (IOException e) {
      throw new StoreUnusableException("the snapshot " + folder + " cannot be listed: " + e);
    }
  }

  private static String readId(Path current) throws StoreUnusableException {
    if (!Files.isRegularFile(current)) {
      throw new StoreUnusableException(
          "nothing is published yet: there is no file " + current + "; run jobs/nightly first");
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(current)) {
      bytes = in.readNBytes(MAX_ID_BYTES + 1);
    } catch (IOException e) {
      throw new StoreUnusableException("the file " + current + " cannot be read: " + e);
    }
    String id = new String(bytes, StandardCharsets.UTF_8).strip();
    // The id becomes a folder name: anything that could step out of snapshots/ is refused.
    if (bytes.length > MAX_ID_BYTES
        || !ID.matcher(id).matches()
        || ONLY_DOTS.matcher(id).matches()) {
      throw new StoreUnusableException(
          "the file " + current + " does not hold a snapshot id (letters, digits, . _ -)");
    }
    return id;
  }

  private static SortedMap<String, List<Path>> tablesIn(Path folder) throws IOException {
    SortedMap<String, List<Path>> tables = new TreeMap<>();
    for (Path table : sorted(folder)) {
      if (Files.isDirectory(table, LinkOption.NOFOLLOW_LINKS)) {
        List<Path> files = sorted(table).stream().filter(Snapshot::isTableFile).toList();
        if (!files.isEmpty()) {
          tables.put(table.getFileName().toString(), files);
        }
      }
    }
    return tables;
  }

  /** Links are passed over: they could lead out of the snapshot. */
  private static boolean isTableFile(Path file) {
    return file.getFileName().toString().endsWith(".parquet")
        && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
  }

  private static List<Path> sorted(Path folder) throws IOException {
    try (Stream<Path> children = Files.list(folder)) {
      return children.sorted().toList();
    }
  }
}

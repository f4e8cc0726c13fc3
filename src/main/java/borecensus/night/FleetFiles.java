package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.registers.FleetFolder;
import borecensus.registers.FleetInputException;
import borecensus.tabular.CsvTable;
import borecensus.tabular.ParquetTable;
import borecensus.tabular.TableReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.Serializable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A fleet folder on a file system that every worker can see.
 *
 * @param root the folder, absolute
 * @param hadoopSettings with which a worker finds it, when it is no local folder
 */
record FleetFiles(String root, Map<String, String> hadoopSettings)
    implements FleetFolder, Serializable {

  FleetFiles {
    hadoopSettings = new TreeMap<>(hadoopSettings);
  }

  /**
   * A fleet folder that is there and readable.
   *
   * @throws FleetInputException when it is not
   */
  static FleetFiles at(Path folder) {
    if (!Files.isDirectory(folder)) {
      throw new FleetInputException("the fleet folder " + folder + " does not exist");
    }
    if (!Files.isDirectory(folder.resolve(SheetListing.FOLDER))) {
      throw new FleetInputException("the fleet folder " + folder + " has no folder 'sheets'");
    }
    return new FleetFiles(folder.toAbsolutePath().normalize().toString(), Folders.settings(folder));
  }

  /** Tells whether there is such a file. */
  boolean holds(String relativePath) {
    return Files.isRegularFile(folder().resolve(relativePath));
  }

  @Override
  public Optional<InputStream> open(String relativePath) throws IOException {
    Path file = folder().resolve(relativePath);
    return Files.isRegularFile(file) ? Optional.of(Files.newInputStream(file)) : Optional.empty();
  }

  private Path folder() {
    return Folders.path(root, hadoopSettings);
  }

  /** Lists the sheet files. */
  SheetListing list() {
    return SheetListing.of(folder());
  }

  /** Opens a sheet file by its kind. */
  TableReader openSheet(String relativePath) throws IOException {
    Path file = folder().resolve(relativePath);
    return relativePath.toLowerCase(Locale.ROOT).endsWith(".parquet")
        ? ParquetTable.open(Folders.parquet(file))
        : CsvTable.open(Files.newInputStream(file));
  }

  /**
   * A sheet file known by its content.
   *
   * @param contentDigest SHA-256 of its bytes, or a note that they could not be read
   */
  record SheetPath(String path, String contentDigest) implements Serializable {}

  /**
   * What a look at the sheet files has found.
   *
   * @param fresh files whose content is new; of several with one content the first
   * @param prints of all files that could be read
   */
  record Found(List<SheetPath> fresh, SheetPrints prints) {}

  /**
   * Looks for new content. Hashing is bound by the disk, so it is done here and not by workers.
   *
   * @param sheets files by path, sorted
   * @param seen content digests of the files taken in before
   * @param known files as the night before has found them
   */
  Found look(List<String> sheets, Set<String> seen, SheetPrints known) {
    Map<String, SheetPrints.Print> prints = new ConcurrentHashMap<>();
    List<SheetPath> digested =
        sheets.parallelStream()
            .map(path -> new SheetPath(path, digestOrNote(path, known, prints)))
            .toList();
    Set<String> all = new HashSet<>(seen);
    return new Found(
        digested.stream().filter(sheet -> all.add(sheet.contentDigest())).toList(),
        new SheetPrints(prints));
  }

  private String digestOrNote(
      String path, SheetPrints known, Map<String, SheetPrints.Print> prints) {
    try {
      SheetPrints.Print print = known.print(path, folder().resolve(path));
      prints.put(path, print);
      return print.contentDigest();
    } catch (IOException unreadable) {
      return "unreadable " + path;
    }
  }

  /** SHA-256 of a file's bytes, by which a file is known again under any name. */
  String contentDigest(String relativePath) throws IOException {
    MessageDigest digest = sha256();
    try (InputStream in =
        new DigestInputStream(Files.newInputStream(folder().resolve(relativePath)), digest)) {
      in.transferTo(OutputStream.nullOutputStream());
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}

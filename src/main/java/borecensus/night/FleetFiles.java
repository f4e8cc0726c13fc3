package borecensus.night;

import borecensus.registers.FleetFolder;
import borecensus.registers.FleetInputException;
import borecensus.tabular.CsvTable;
import borecensus.tabular.ParquetTable;
import borecensus.tabular.TableReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.apache.parquet.io.LocalInputFile;

/**
 * A fleet folder on a file system that every worker can see.
 *
 * @param root the folder, absolute
 */
record FleetFiles(String root) implements FleetFolder, Serializable {
  private static final String SHEETS = "sheets";
  private static final List<String> ENDINGS = List.of(".csv", ".csv.gz", ".parquet");

  /**
   * A fleet folder that is there and readable.
   *
   * @throws FleetInputException when it is not
   */
  static FleetFiles at(Path folder) {
    if (!Files.isDirectory(folder)) {
      throw new FleetInputException("the fleet folder " + folder + " does not exist");
    }
    if (!Files.isDirectory(folder.resolve(SHEETS))) {
      throw new FleetInputException("the fleet folder " + folder + " has no folder 'sheets'");
    }
    return new FleetFiles(folder.toAbsolutePath().normalize().toString());
  }

  @Override
  public Optional<InputStream> open(String relativePath) throws IOException {
    Path file = Path.of(root).resolve(relativePath);
    return Files.isRegularFile(file) ? Optional.of(Files.newInputStream(file)) : Optional.empty();
  }

  /**
   * Sheet files by their paths below the fleet folder, sorted; links out of it are not followed.
   */
  List<String> sheetPaths() {
    Path folder = Path.of(root);
    try (Stream<Path> paths = Files.walk(folder.resolve(SHEETS), FileVisitOption.FOLLOW_LINKS)) {
      Path realRoot = folder.toRealPath();
      List<String> found = new ArrayList<>();
      for (Path path : (Iterable<Path>) paths::iterator) {
        if (isSheet(path) && path.toRealPath().startsWith(realRoot)) {
          found.add(folder.relativize(path).toString().replace('\\', '/'));
        }
      }
      found.sort(String::compareTo);
      return found;
    } catch (IOException | UncheckedIOException unreadable) {
      throw new FleetInputException("the sheets cannot be listed: " + unreadable.getMessage());
    }
  }

  private static boolean isSheet(Path path) {
    String name = path.getFileName().toString().toLowerCase(Locale.ROOT);
    return !name.startsWith(".")
        && !name.startsWith("_")
        && ENDINGS.stream().anyMatch(name::endsWith)
        && Files.isRegularFile(path);
  }

  /** Opens a sheet file by its kind. */
  TableReader openSheet(String relativePath) throws IOException {
    Path file = Path.of(root).resolve(relativePath);
    return relativePath.toLowerCase(Locale.ROOT).endsWith(".parquet")
        ? ParquetTable.open(new LocalInputFile(file))
        : CsvTable.open(Files.newInputStream(file));
  }

  /**
   * A sheet file known by its content.
   *
   * @param contentDigest SHA-256 of its bytes, or a note that they could not be read
   */
  record SheetPath(String path, String contentDigest) implements Serializable {}

  /**
   * The sheet files whose content is new, by path. Hashing is bound by the disk, so it is done here
   * and not by workers.
   *
   * @param seen content digests of the files taken in before
   */
  List<SheetPath> newSheets(Set<String> seen) {
    return sheetPaths().parallelStream()
        .map(path -> new SheetPath(path, digestOrNote(path)))
        .filter(sheet -> !seen.contains(sheet.contentDigest()))
        .toList();
  }

  private String digestOrNote(String path) {
    try {
      return contentDigest(path);
    } catch (IOException unreadable) {
      return "unreadable " + path;
    }
  }

  /** SHA-256 of a file's bytes, by which a file is known again under any name. */
  String contentDigest(String relativePath) throws IOException {
    MessageDigest digest = sha256();
    try (InputStream in =
        new DigestInputStream(Files.newInputStream(Path.of(root).resolve(relativePath)), digest)) {
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

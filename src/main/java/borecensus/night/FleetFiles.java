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
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.apache.parquet.io.LocalInputFile;

/**
 * A fleet folder on a file system that every worker can see.
 *
 * @param root the folder, absolute
 */
record FleetFiles(String root) implements FleetFolder, Serializable {
  private static final String SHEETS = "sheets";
  private static final int MAX_DEPTH = 32;
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
   * What a look at the sheets folder found.
   *
   * @param sheets sheet files by their paths below the fleet folder, sorted
   * @param skipped what is there but is no sheet file of this fleet: links out of it or in circles
   */
  record Listing(List<String> sheets, List<String> skipped) {
    Listing {
      sheets = sheets.stream().sorted().toList();
      skipped = skipped.stream().sorted().toList();
    }
  }

  /** Lists the sheet files; links that lead out of the fleet folder are not followed. */
  Listing list() {
    Path folder = Path.of(root);
    try {
      SheetVisitor visitor = new SheetVisitor(folder, folder.toRealPath());
      Files.walkFileTree(
          folder.resolve(SHEETS), Set.of(FileVisitOption.FOLLOW_LINKS), MAX_DEPTH, visitor);
      return new Listing(visitor.sheets, visitor.skipped);
    } catch (IOException unreadable) {
      throw new FleetInputException("the sheets cannot be listed: " + unreadable.getMessage());
    }
  }

  /** Gathers sheet files, and what only looks like one. */
  private static final class SheetVisitor extends SimpleFileVisitor<Path> {
    private final Path folder;
    private final Path realFolder;
    private final List<String> sheets = new ArrayList<>();
    private final List<String> skipped = new ArrayList<>();

    SheetVisitor(Path folder, Path realFolder) {
      this.folder = folder;
      this.realFolder = realFolder;
    }

    @Override
    public FileVisitResult preVisitDirectory(Path path, BasicFileAttributes attributes)
        throws IOException {
      if (path.toRealPath().startsWith(realFolder)) {
        return FileVisitResult.CONTINUE;
      }
      skipped.add(relative(path));
      return FileVisitResult.SKIP_SUBTREE;
    }

    @Override
    public FileVisitResult visitFile(Path path, BasicFileAttributes attributes) throws IOException {
      String name = path.getFileName().toString().toLowerCase(Locale.ROOT);
      if (ENDINGS.stream().anyMatch(name::endsWith)) {
        boolean sheet = attributes.isRegularFile() && path.toRealPath().startsWith(realFolder);
        (sheet ? sheets : skipped).add(relative(path));
      }
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFileFailed(Path path, IOException failure) {
      skipped.add(relative(path));
      return FileVisitResult.CONTINUE;
    }

    private String relative(Path path) {
      return folder.relativize(path).toString().replace('\\', '/');
    }
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
   * The sheet files whose content is new; of several with one content the first. Hashing is bound
   * by the disk, so it is done here and not by workers.
   *
   * @param sheets files by path, sorted
   * @param seen content digests of the files taken in before
   */
  List<SheetPath> newSheets(List<String> sheets, Set<String> seen) {
    List<SheetPath> digested =
        sheets.parallelStream().map(path -> new SheetPath(path, digestOrNote(path))).toList();
    Set<String> known = new HashSet<>(seen);
    return digested.stream().filter(sheet -> known.add(sheet.contentDigest())).toList();
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

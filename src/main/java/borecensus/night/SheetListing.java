package borecensus.night;

import borecensus.registers.FleetInputException;
import java.io.IOException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * What a look at the sheets folder of a fleet found.
 *
 * @param sheets sheet files by their paths below the fleet folder, sorted
 * @param skipped what is there but is no sheet file of this fleet: links out of it or in circles
 */
record SheetListing(List<String> sheets, List<String> skipped) {
  /** Where sheets stand in a fleet folder. */
  static final String FOLDER = "sheets";

  private static final List<String> ENDINGS = List.of(".csv", ".csv.gz", ".parquet");
  private static final int MAX_DEPTH = 32;

  SheetListing {
    sheets = sheets.stream().sorted().toList();
    skipped = skipped.stream().sorted().toList();
  }

  /** Lists a fleet's sheet files; links that lead out of the fleet folder are not followed. */
  static SheetListing of(Path fleet) {
    try {
      SheetVisitor visitor = new SheetVisitor(fleet, fleet.toRealPath());
      Files.walkFileTree(
          fleet.resolve(FOLDER), Set.of(FileVisitOption.FOLLOW_LINKS), MAX_DEPTH, visitor);
      return new SheetListing(visitor.sheets, visitor.skipped);
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
}

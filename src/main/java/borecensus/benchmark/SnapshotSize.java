package borecensus.benchmark;

import borecensus.tables.Table;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * How large a snapshot is, and how large its tables would be if a column store wrote them: every
 * column that tells something, in Parquet with zstd. A column tells something where two rows of it
 * differ.
 */
final class SnapshotSize {
  static final String RUN = "snapshot";
  private static final String PARQUET = ".parquet";

  private final Path snapshot;
  private final Path scratch;

  private SnapshotSize(Path snapshot, Path scratch) {
    this.snapshot = snapshot;
    this.scratch = scratch;
  }

  /**
   * Measures the published snapshot of a store.
   *
   * @param scratch a folder for the column store's files; they are deleted again
   */
  static List<Figure> of(Path store, Path scratch) throws SQLException {
    try {
      String id = Files.readString(store.resolve("CURRENT")).strip();
      SnapshotSize size =
          new SnapshotSize(
              store.resolve("snapshots").resolve(id), Files.createDirectories(scratch));
      List<Figure> figures = new ArrayList<>(size.parts());
      figures.add(new Figure(RUN, Figure.WHOLE, "bytes", bytes(size.snapshot)));
      figures.add(new Figure(RUN, Figure.WHOLE, "bytes_by_column_store", size.byColumnStore()));
      figures.add(new Figure(RUN, Figure.WHOLE, "largest_file_bytes", size.largestFile()));
      Folders.delete(scratch);
      return figures;
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private List<Figure> parts() throws IOException {
    List<Figure> figures = new ArrayList<>();
    try (Stream<Path> parts = Files.list(snapshot)) {
      for (Path part : parts.filter(Files::isDirectory).sorted().toList()) {
        figures.add(new Figure(RUN, part.getFileName().toString(), "bytes", bytes(part)));
        figures.add(new Figure(RUN, part.getFileName().toString(), "files", files(part)));
      }
    }
    return figures;
  }

  private long byColumnStore() throws SQLException, IOException {
    long bytes = 0;
    try (Connection connection = RelationalSql.open(2);
        Statement statement = connection.createStatement()) {
      for (Table table : Table.values()) {
        List<String> telling = tellingColumns(table, statement);
        if (!telling.isEmpty()) {
          Path file = scratch.resolve(table.tableName() + PARQUET);
          statement.execute(
              "COPY (SELECT %s FROM %s) TO '%s' (FORMAT parquet, COMPRESSION zstd)"
                  .formatted(String.join(", ", telling), source(table), quoted(file)));
          bytes += Files.size(file);
        }
      }
    }
    return bytes;
  }

  private List<String> tellingColumns(Table table, Statement statement) throws SQLException {
    List<String> names = table.columns().stream().map(c -> '"' + c.name() + '"').toList();
    List<String> tells =
        names.stream()
            .map("(min(%1$s) <> max(%1$s) OR count(%1$s) BETWEEN 1 AND count(*) - 1)"::formatted)
            .toList();
    List<String> telling = new ArrayList<>();
    try (ResultSet row =
        statement.executeQuery(
            "SELECT %s FROM %s".formatted(String.join(", ", tells), source(table)))) {
      row.next();
      for (int i = 0; i < names.size(); i++) {
        if (row.getBoolean(i + 1)) {
          telling.add(names.get(i));
        }
      }
    }
    return telling;
  }

  private String source(Table table) {
    return "read_parquet('%s')"
        .formatted(quoted(snapshot.resolve(table.tableName()).resolve("*" + PARQUET)));
  }

  private static String quoted(Path path) {
    return path.toString().replace("'", "''");
  }

  private static long bytes(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).mapToLong(SnapshotSize::size).sum();
    }
  }

  private static long files(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).count();
    }
  }

  private long largestFile() throws IOException {
    try (Stream<Path> files = Files.walk(snapshot)) {
      return files.filter(Files::isRegularFile).mapToLong(SnapshotSize::size).max().orElse(0);
    }
  }

  private static long size(Path file) {
    try {
      return Files.size(file);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}

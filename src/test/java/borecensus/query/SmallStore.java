package borecensus.query;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;

/** Lays a small store for tests: one snapshot, its tables made from SQL. */
public final class SmallStore {
  private final Path folder;
  private final String id;

  private SmallStore(Path folder, String id) {
    this.folder = folder;
    this.id = id;
  }

  public static SmallStore in(Path folder, String id) throws IOException {
    Files.createDirectories(folder.resolve("snapshots").resolve(id));
    Files.writeString(folder.resolve("CURRENT"), id + "\n");
    return new SmallStore(folder, id);
  }

  public Path folder() {
    return folder;
  }

  public Path snapshot() {
    return folder.resolve("snapshots").resolve(id);
  }

  public SmallStore table(String name, String file, String select)
      throws IOException, SQLException {
    Path target = Files.createDirectories(snapshot().resolve(name)).resolve(file);
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute("SET TimeZone = 'UTC'");
      statement.execute(
          "COPY ("
              + select
              + ") TO '"
              + target.toString().replace("'", "''")
              + "' (FORMAT parquet)");
    }
    return this;
  }
}

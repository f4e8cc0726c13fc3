package borecensus.query;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.stream.Collectors;

/** Opens an in-memory database that sees one snapshot's tables and can reach nothing else. */
final class SnapshotDatabase {
  private SnapshotDatabase() {}

  /**
   * Opens the database with one view per table, then shuts it in: no file but the listed ones, no
   * network, no extensions, and no way to change that. The caller closes the connection.
   *
   * @throws StoreUnusableException when a table file cannot be read as Parquet
   * @throws SQLException when the database itself does not start
   */
  static Connection open(Snapshot snapshot) throws StoreUnusableException, SQLException {
    Connection connection = DriverManager.getConnection("jdbc:duckdb:", startSettings());
    try (Statement statement = connection.createStatement()) {
      // Exact files rather than the folder: the reports beside the tables stay out of reach too.
      statement.execute("SET allowed_paths = " + pathList(allFiles(snapshot)));
      statement.execute("SET TimeZone = 'UTC'");
      statement.execute("SET temp_directory = ''");
      statement.execute("SET allow_persistent_secrets = false");
      statement.execute("SET enable_external_access = false");
      createViews(statement, snapshot);
      statement.execute("SET lock_configuration = true");
      return connection;
    } catch (SQLException | StoreUnusableException e) {
      connection.close();
      throw e;
    }
  }

  private static Properties startSettings() {
    Properties settings = new Properties();
    settings.setProperty("autoinstall_known_extensions", "false");
    settings.setProperty("autoload_known_extensions", "false");
    settings.setProperty("allow_community_extensions", "false");
    settings.setProperty("threads", "2");
    settings.setProperty("jdbc_stream_results", "true");
    return settings;
  }

  private static void createViews(Statement statement, Snapshot snapshot)
      throws StoreUnusableException {
    for (Map.Entry<String, List<Path>> table : snapshot.tables().entrySet()) {
      try {
        // Folder names such as run=5 above the store must not turn into columns.
        statement.execute(
            "CREATE VIEW "
                + quotedName(table.getKey())
                + " AS SELECT * FROM read_parquet("
                + pathList(table.getValue())
                + ", hive_partitioning = false)");
      } catch (SQLException e) {
        throw new StoreUnusableException(
            "the table " + table.getKey() + " cannot be read: " + SqlMessages.oneLine(e));
      }
    }
  }

  private static List<Path> allFiles(Snapshot snapshot) {
    return snapshot.tables().values().stream().flatMap(Collection::stream).toList();
  }

  private static String pathList(List<Path> paths) {
    return paths.stream()
        .map(path -> quotedText(path.toString()))
        .collect(Collectors.joining(", ", "[", "]"));
  }

  private static String quotedText(String text) {
    return "'" + text.replace("'", "''") + "'";
  }

  private static String quotedName(String name) {
    return '"' + name.replace("\"", "\"\"") + '"';
  }
}

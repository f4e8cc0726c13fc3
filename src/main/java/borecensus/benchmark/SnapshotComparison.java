package borecensus.benchmark;

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

/** Whether two stores publish the same tables: rows that stand in one snapshot alone. */
final class SnapshotComparison {
  private static final List<String> TABLES =
      List.of("family_norms", "gauge_offsets", "engine_status", "work_list", "cylinder_readings");

  /** Names of files differ where a night has taken in what another took in at once. */
  private static final String SQL =
      "SELECT count(*) FROM ((SELECT %1$s FROM read_parquet('%2$s') EXCEPT ALL SELECT %1$s FROM"
          + " read_parquet('%3$s')) UNION ALL (SELECT %1$s FROM read_parquet('%3$s') EXCEPT ALL"
          + " SELECT %1$s FROM read_parquet('%2$s')))";

  private SnapshotComparison() {}

  static List<Figure> run(Path first, Path second) throws SQLException {
    List<Figure> figures = new ArrayList<>();
    try (Connection connection = RelationalSql.open(2);
        Statement statement = connection.createStatement()) {
      for (String table : TABLES) {
        String sql = SQL.formatted("*", files(first, table), files(second, table));
        try (ResultSet rows = statement.executeQuery(sql)) {
          rows.next();
          figures.add(new Figure(Benchmark.UPDATE, table, "rows_unlike_rebuild", rows.getLong(1)));
        }
      }
    }
    return figures;
  }

  private static String files(Path store, String table) {
    try {
      String id = Files.readString(store.resolve("CURRENT")).strip();
      Path folder = store.resolve("snapshots").resolve(id).resolve(table);
      return folder.resolve("*.parquet").toString().replace("'", "''");
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}

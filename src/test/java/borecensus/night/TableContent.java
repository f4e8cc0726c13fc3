package borecensus.night;

import borecensus.query.OutputFormat;
import borecensus.query.QueryRefusedException;
import borecensus.query.SnapshotQuery;
import borecensus.query.StoreUnusableException;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a published snapshot holds, as text that can be compared. */
final class TableContent {
  private TableContent() {}

  /** The answer to a query as CSV lines, the header left out. */
  static List<String> rows(Path store, String sql) {
    StringWriter out = new StringWriter();
    try {
      SnapshotQuery.run(store, sql, OutputFormat.CSV, out);
    } catch (IOException | StoreUnusableException | QueryRefusedException failure) {
      throw new IllegalStateException(failure);
    }
    return out.toString().lines().skip(1).toList();
  }

  /** The single value that a query gives. */
  static String value(Path store, String sql) {
    return rows(store, sql).get(0);
  }

  /** All rows of all tables of the current snapshot, in their total order. */
  static Map<String, List<String>> all(Path store) {
    Map<String, List<String>> tables = new TreeMap<>();
    for (Table table : Table.values()) {
      String order = "\"" + String.join("\", \"", table.order()) + "\"";
      tables.put(
          table.tableName(),
          rows(store, "SELECT * FROM " + table.tableName() + " ORDER BY " + order));
    }
    return tables;
  }

  static String current(Path store) {
    try {
      return Files.readString(store.resolve("CURRENT")).strip();
    } catch (IOException failure) {
      throw new IllegalStateException(failure);
    }
  }
}

package borecensus.query;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Types;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;

/** Answers one reading statement over the current snapshot of a store. */
public final class SnapshotQuery {
  private SnapshotQuery() {}

  /**
   * Writes the rows of the statement to {@code out}, as they come.
   *
   * @throws StoreUnusableException when no snapshot can be read
   * @throws QueryRefusedException when the statement is wrong or does more than read the tables
   * @throws IOException when {@code out} takes no more
   */
  public static void run(Path store, String sql, OutputFormat format, Writer out)
      throws StoreUnusableException, QueryRefusedException, IOException {
    Snapshot snapshot = Snapshot.current(store);
    try (Connection connection = SnapshotDatabase.open(snapshot)) {
      StatementGate.check(connection, sql);
      try (PreparedStatement statement = connection.prepareStatement(sql);
          ResultSet rows = statement.executeQuery()) {
        copy(rows, format.writingTo(out));
      }
    } catch (SQLException e) {
      String message = SqlMessages.oneLine(e);
      if (message.startsWith("IO Error")) {
        throw new StoreUnusableException("a table file cannot be read: " + message);
      }
      throw new QueryRefusedException(message);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private static void copy(ResultSet rows, RowWriter writer) throws SQLException, IOException {
    ResultSetMetaData meta = rows.getMetaData();
    int columns = meta.getColumnCount();
    List<String> names = new ArrayList<>();
    for (int i = 1; i <= columns; i++) {
      names.add(meta.getColumnLabel(i));
    }
    writer.begin(names);
    while (rows.next()) {
      List<Object> values = new ArrayList<>(columns);
      for (int i = 1; i <= columns; i++) {
        values.add(value(rows, i, meta.getColumnType(i)));
      }
      writer.row(values);
    }
    writer.end();
  }

  private static Object value(ResultSet rows, int column, int type) throws SQLException {
    // The plain getter passes local times through the machine's time zone and shifts those that
    // fall into its spring gap.
    return type == Types.TIMESTAMP
        ? rows.getObject(column, LocalDateTime.class)
        : CellText.plain(rows.getObject(column));
  }
}

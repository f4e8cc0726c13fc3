package borecensus.query;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Reads typed rows from the snapshot that was current when it was opened. Not thread-safe. */
public final class SnapshotReader implements AutoCloseable {
  private final Snapshot snapshot;
  private final Connection connection;

  private SnapshotReader(Snapshot snapshot, Connection connection) {
    this.snapshot = snapshot;
    this.connection = connection;
  }

  /** Turns the row that the result stands on into a value. */
  public interface RowReader<T> {
    T of(ResultSet row) throws SQLException;
  }

  /**
   * Opens the store's current snapshot.
   *
   * @throws StoreUnusableException when there is none that can be read
   */
  public static SnapshotReader open(Path store) throws StoreUnusableException {
    Snapshot snapshot = Snapshot.current(store);
    try {
      return new SnapshotReader(snapshot, SnapshotDatabase.open(snapshot));
    } catch (SQLException e) {
      throw new StoreUnusableException(
          "the snapshot " + snapshot.id() + " cannot be opened: " + SqlMessages.oneLine(e));
    }
  }

  /** The id of the snapshot. */
  public String snapshotId() {
    return snapshot.id();
  }

  /**
   * All rows of a statement of ours.
   *
   * @param parameters the texts that its question marks stand for
   * @throws StoreUnusableException when the snapshot has not the tables or columns asked for
   */
  public <T> List<T> read(String sql, List<String> parameters, RowReader<T> reader)
      throws StoreUnusableException {
    try (PreparedStatement statement = connection.prepareStatement(sql)) {
      for (int i = 0; i < parameters.size(); i++) {
        statement.setString(i + 1, parameters.get(i));
      }
      List<T> rows = new ArrayList<>();
      try (ResultSet result = statement.executeQuery()) {
        while (result.next()) {
          rows.add(reader.of(result));
        }
      }
      return rows;
    } catch (SQLException e) {
      throw new StoreUnusableException(
          "the snapshot " + snapshot.id() + " cannot be read: " + SqlMessages.oneLine(e));
    }
  }

  /** Question marks for a list of so many values, such as {@code ?, ?, ?}; at least one. */
  public static String placeholders(int count) {
    return String.join(", ", Collections.nCopies(count, "?"));
  }

  @Override
  public void close() throws StoreUnusableException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new StoreUnusableException(
          "the snapshot " + snapshot.id() + " cannot be closed: " + SqlMessages.oneLine(e));
    }
  }
}

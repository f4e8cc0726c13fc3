package borecensus.query;

import java.sql.SQLException;

/** Turns the database's many-line messages into one line. */
final class SqlMessages {
  private SqlMessages() {}

  /** The message without the excerpt of the statement, on one line. */
  static String oneLine(SQLException error) {
    String message = String.valueOf(error.getMessage());
    int excerpt = message.indexOf("\n\nLINE ");
    String told = excerpt < 0 ? message : message.substring(0, excerpt);
    return told.strip().replaceAll("\\s*\\R\\s*", " ");
  }
}

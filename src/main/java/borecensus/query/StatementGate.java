package borecensus.query;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;

/**
 * Lets one reading statement through and nothing else.
 *
 * <p>The database's own parser decides, through its function json_serialize_sql, which accepts
 * SELECT, WITH, VALUES, DESCRIBE, SUMMARIZE and SHOW and refuses whatever could change something. A
 * second reader of SQL in Java could be led to see other statement borders than the one that runs
 * them.
 */
final class StatementGate {
  private StatementGate() {}

  private static final String PARSE =
      "SELECT parsed->>'error', parsed->>'error_type', parsed->>'error_message',"
          + " json_array_length(parsed, '$.statements')"
          + " FROM (SELECT json_serialize_sql(?::VARCHAR)::JSON AS parsed)";

  private static final String RULE =
      "only one SELECT, WITH, DESCRIBE or SHOW TABLES statement is answered";

  /**
   * @throws QueryRefusedException when the text is not exactly one reading statement
   */
  static void check(Connection connection, String sql) throws QueryRefusedException, SQLException {
    try (PreparedStatement parse = connection.prepareStatement(PARSE)) {
      parse.setString(1, sql);
      try (ResultSet parsed = parse.executeQuery()) {
        parsed.next();
        judge(parsed);
      }
    }
  }

  private static void judge(ResultSet parsed) throws QueryRefusedException, SQLException {
    if (!"false".equals(parsed.getString(1))) {
      throw new QueryRefusedException(
          "parser".equals(parsed.getString(2)) ? parsed.getString(3) : RULE);
    }
    long statements = parsed.getLong(4);
    if (statements != 1) {
      throw new QueryRefusedException(RULE + ", not " + statements);
    }
  }
}

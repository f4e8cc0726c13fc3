package borecensus.query;

import java.io.IOException;
import java.util.List;

/** Takes a result row by row, so that no result is too large. */
interface RowWriter {
  /** Called once, before any row. */
  void begin(List<String> columns) throws IOException;

  /** Called once per row; null elements are SQL NULL. */
  void row(List<Object> values) throws IOException;

  /** Called once, after the last row. */
  void end() throws IOException;
}

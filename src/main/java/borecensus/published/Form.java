package borecensus.published;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import java.io.IOException;

/** How values of one type stand in JSON. */
interface Form {

  /** Writes a value; null only where a record's component may be null. */
  void write(JsonGenerator out, Object value) throws IOException;

  /**
   * Reads a value.
   *
   * @param in at the first token of the value; afterwards at its last
   */
  Object read(JsonParser in) throws IOException;

  /** The type in words, as the head of a file states it. */
  String name();
}

package borecensus.night.parquet;

import java.io.IOException;
import java.util.List;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.MessageTypeParser;

/** Writes the cells of a row that are there; null stands for what is absent. */
final class CellsOfRow {
  private CellsOfRow() {}

  /**
   * Columns of all kinds, each of which may be absent.
   *
   * @param fourth the column of number 4
   */
  static MessageType schema(String fourth) {
    return MessageTypeParser.parseMessageType(
        """
        message rows {
          optional binary name (STRING);
          optional int32 number;
          optional int64 whole;
          optional double real;
          %s;
          optional group words (LIST) { repeated group list { required binary element (STRING); } }
          optional group parts (LIST) { repeated group list { required double element; } }
        }
        """
            .formatted(fourth));
  }

  /** Columns 0 to 3. */
  static void writeValues(ColumnFile file, String name, Integer number, Long whole, Double real)
      throws IOException {
    if (name != null) {
      file.text(0, CellWriter.utf8(name));
    }
    if (number != null) {
      file.integer(1, number);
    }
    if (whole != null) {
      file.whole(2, whole);
    }
    if (real != null) {
      file.real(3, real);
    }
  }

  /** Columns 5 and 6. */
  static void writeLists(ColumnFile file, List<String> words, double[] parts) throws IOException {
    if (words != null) {
      file.texts(5, words);
    }
    if (parts != null) {
      file.reals(6, parts);
    }
  }
}

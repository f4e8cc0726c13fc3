package borecensus.simulate;

import java.util.Map;
import java.util.TreeMap;

/**
 * One record of a sheet file.
 *
 * @param cells column name to text; an empty cell has no entry
 * @param expectedCode what the job should say of it: a row code, {@code superseded}, or empty for a
 *     row to accept
 */
record SheetRow(Map<String, String> cells, String expectedCode, Shape shape) {

  /** Whether the record has as many fields as the header. */
  enum Shape {
    WHOLE,
    CUT_SHORT,
    TOO_LONG
  }

  SheetRow {
    cells = Map.copyOf(cells);
  }

  static SheetRow clean(Map<String, String> cells) {
    return new SheetRow(cells, "", Shape.WHOLE);
  }

  SheetRow expecting(String code) {
    return new SheetRow(cells, code, shape);
  }

  SheetRow shaped(Shape other) {
    return new SheetRow(cells, expectedCode, other);
  }

  /** The row with one cell changed; empty text empties it. */
  SheetRow with(String column, String text) {
    Map<String, String> changed = new TreeMap<>(cells);
    if (text.isEmpty()) {
      changed.remove(column);
    } else {
      changed.put(column, text);
    }
    return new SheetRow(changed, expectedCode, shape);
  }
}

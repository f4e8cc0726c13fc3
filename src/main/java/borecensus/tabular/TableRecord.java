package borecensus.tabular;

import java.util.List;

/**
 * One record of a table file.
 *
 * @param rowNumber 1 for the first record after the header
 * @param cells the text of each cell in header order; fewer or more than the header has columns
 *     when the record is ragged
 */
public record TableRecord(long rowNumber, List<String> cells) {

  /** The cell in a column; empty when the record ends before it. */
  public String cell(int column) {
    return column < cells.size() ? cells.get(column) : "";
  }

  /** The cell in a column without the blanks around it, no-break spaces among them. */
  public String stripped(int column) {
    return TableHeader.stripped(cell(column));
  }

  /** The record as one line of text, shortened, for people who look for it in the file. */
  public String text() {
    String joined = String.join(",", cells);
    return joined.length() <= 500 ? joined : joined.substring(0, 500) + "…";
  }
}

package borecensus.tabular;

import java.util.ArrayList;
import java.util.List;

/**
 * Cuts one record of a CSV file into cells by RFC 4180. It is fed line by line, since a quoted cell
 * may hold line breaks. A quote inside a cell that does not begin with one is a plain character, as
 * in {@code 12" wheel}.
 */
final class CsvLexer {

  private enum State {
    CELL_START,
    PLAIN,
    QUOTED,
    BEHIND_QUOTE
  }

  private final char separator;
  private final List<String> cells = new ArrayList<>();
  private final StringBuilder cell = new StringBuilder();
  private State state = State.CELL_START;
  private int lines;
  private long chars;
  private int quotedSeparators;
  private boolean textBehindQuote;

  CsvLexer(char separator) {
    this.separator = separator;
  }

  /**
   * The cells of a line without any quote, which is cut at its separators and at nothing else: many
   * times faster than character by character.
   */
  static List<String> cellsWithoutQuotes(String line, char separator) {
    int count = 1;
    for (int i = 0; i < line.length(); i++) {
      count += line.charAt(i) == separator ? 1 : 0;
    }
    String[] cells = new String[count];
    int from = 0;
    for (int i = 0; i < count - 1; i++) {
      int to = line.indexOf(separator, from);
      // Half the cells of a sheet are empty, and Java would make a text for each.
      cells[i] = from == to ? "" : line.substring(from, to);
      from = to + 1;
    }
    cells[count - 1] = line.substring(from);
    return List.of(cells);
  }

  /** The cells of a record that stands in one line; a quote left open ends with the line. */
  static List<String> cellsOf(String line, char separator) {
    CsvLexer lexer = new CsvLexer(separator);
    lexer.feed(line);
    return lexer.cells();
  }

  /** Takes the next line of the record. */
  void feed(String line) {
    if (lines++ > 0) {
      cell.append('\n');
    }
    chars += line.length();
    for (int i = 0; i < line.length(); i++) {
      take(line.charAt(i));
    }
  }

  private void take(char c) {
    switch (state) {
      case CELL_START -> takeFirst(c);
      case PLAIN -> takePlain(c);
      case QUOTED -> takeQuoted(c);
      case BEHIND_QUOTE -> takeBehindQuote(c);
    }
  }

  private void takeFirst(char c) {
    if (c == '"') {
      state = State.QUOTED;
    } else {
      state = State.PLAIN;
      takePlain(c);
    }
  }

  private void takePlain(char c) {
    if (c == separator) {
      endCell();
    } else {
      cell.append(c);
    }
  }

  private void takeQuoted(char c) {
    if (c == '"') {
      state = State.BEHIND_QUOTE;
    } else {
      quotedSeparators += c == separator ? 1 : 0;
      cell.append(c);
    }
  }

  private void takeBehindQuote(char c) {
    if (c == '"') {
      cell.append(c);
      state = State.QUOTED;
    } else if (c == separator) {
      endCell();
    } else {
      textBehindQuote |= !Character.isWhitespace(c);
      cell.append(c);
      state = Character.isWhitespace(c) ? State.BEHIND_QUOTE : State.PLAIN;
    }
  }

  private void endCell() {
    cells.add(cell.toString());
    cell.setLength(0);
    state = State.CELL_START;
  }

  /** Whether a quote is open, so that the record may go on in the next line. */
  boolean open() {
    return state == State.QUOTED;
  }

  /** Characters taken. */
  long chars() {
    return chars;
  }

  /**
   * Whether the quotes cannot be meant as they stand: text follows a closing quote in the same
   * cell, or as many separators as in a whole record stand between quotes. Then the quote that
   * seems to close was opened for another cell.
   */
  boolean quotesDoubtful(int separatorsPerRecord) {
    return textBehindQuote || quotedSeparators >= separatorsPerRecord;
  }

  /** Ends the record. */
  List<String> cells() {
    endCell();
    return List.copyOf(cells);
  }
}

package borecensus.worklist;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Comma-separated values for spreadsheets: RFC 4180 with CRLF, in UTF-8 with a byte order mark,
 * without which common spreadsheets read the text in a local code page.
 *
 * <p>A cell that a spreadsheet would take for a formula gets a leading apostrophe (OWASP, "CSV
 * Injection", cells that begin with = + - @ tab or carriage return, or their full-width variants).
 * Because a spreadsheet may be set to split at semicolons or tabs instead of commas, what follows
 * such a separator within a cell is treated alike. Plain numbers stay as they are.
 */
public final class SpreadsheetCsv {
  private SpreadsheetCsv() {}

  private static final char BYTE_ORDER_MARK = '\uFEFF';

  /** What makes a spreadsheet compute, full-width variants included. */
  private static final String TRIGGERS = "=+-@\uFF1D\uFF0B\uFF0D\uFF20";

  private static final int DELETE = 0x7f;
  private static final String SEPARATORS = ";\t\r\n";
  private static final String CONTROLS = "\t\r\n";

  private static final Pattern PLAIN_NUMBER =
      Pattern.compile("[+-]?[0-9]+(\\.[0-9]+)?([eE][+-]?[0-9]+)?");

  /**
   * Writes the header and the rows; does not close {@code out}.
   *
   * @throws IOException when {@code out} takes no more
   */
  public static void write(List<String> header, Iterator<List<String>> rows, OutputStream out)
      throws IOException {
    Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
    writer.write(BYTE_ORDER_MARK);
    try {
      CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(writer);
      csv.writeRecord(header);
      while (rows.hasNext()) {
        String[] cells = rows.next().toArray(String[]::new);
        for (int i = 0; i < cells.length; i++) {
          cells[i] = neutral(cells[i]);
        }
        csv.writeRecord(cells);
      }
      csv.flush();
      writer.flush();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /** The cell as a spreadsheet shows it without computing anything. */
  static String neutral(String cell) {
    boolean atStart = isDangerous(cell, 0);
    if (atStart && PLAIN_NUMBER.matcher(cell).matches()) {
      return cell;
    }
    StringBuilder told = null;
    int copied = 0;
    if (atStart) {
      told = new StringBuilder(cell.length() + 2).append('\'');
    }
    // A separator at the start that was told apart already does not count once more.
    for (int i = atStart ? 1 : 0; i < cell.length(); i++) {
      if (SEPARATORS.indexOf(cell.charAt(i)) >= 0 && isDangerous(cell, i + 1)) {
        told = told == null ? new StringBuilder(cell.length() + 2) : told;
        told.append(cell, copied, i + 1).append('\'');
        copied = i + 1;
      }
    }
    return told == null ? cell : told.append(cell, copied, cell.length()).toString();
  }

  /** Whether a spreadsheet would compute what begins here, or split the cell. */
  private static boolean isDangerous(String cell, int from) {
    if (from < cell.length() && CONTROLS.indexOf(cell.charAt(from)) >= 0) {
      return true;
    }
    int at = from;
    while (at < cell.length() && isSkipped(cell.codePointAt(at))) {
      at += Character.charCount(cell.codePointAt(at));
    }
    return at < cell.length() && TRIGGERS.indexOf(cell.charAt(at)) >= 0;
  }

  /** Spaces and invisible characters that a spreadsheet may skip before it looks for a formula. */
  private static boolean isSkipped(int codePoint) {
    if (codePoint > ' ' && codePoint < DELETE) {
      return false;
    }
    return switch (Character.getType(codePoint)) {
      case Character.SPACE_SEPARATOR,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR,
          Character.FORMAT,
          Character.CONTROL ->
          true;
      default -> false;
    };
  }
}

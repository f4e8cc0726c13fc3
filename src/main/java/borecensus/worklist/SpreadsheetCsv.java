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
import java.util.regex.Matcher;
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

  /** Spaces and invisible characters that a spreadsheet may skip before it looks for a formula. */
  private static final String SKIPPED = "[\\p{Z}\\p{Cf}\\p{Cc}]*";

  private static final String TRIGGER = "[=+\\-@\uFF1D\uFF0B\uFF0D\uFF20]";

  private static final Pattern DANGEROUS_PART =
      Pattern.compile("(^|[;\t\r\n])(?=" + SKIPPED + TRIGGER + "|[\t\r\n])");

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
        csv.writeRecord(rows.next().stream().map(SpreadsheetCsv::neutral).toArray(String[]::new));
      }
      csv.flush();
      writer.flush();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /** The cell as a spreadsheet shows it without computing anything. */
  static String neutral(String cell) {
    if (PLAIN_NUMBER.matcher(cell).matches()) {
      return cell;
    }
    Matcher parts = DANGEROUS_PART.matcher(cell);
    return parts.replaceAll("$1'");
  }
}

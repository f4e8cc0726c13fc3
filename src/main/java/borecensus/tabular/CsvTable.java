package borecensus.tabular;

import java.io.BufferedInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPInputStream;

/**
 * A CSV file, plain or gzip, in any of the dialects of {@link CsvDialect}. Empty lines are no
 * records.
 *
 * <p>A quote that is opened and never closed would swallow the records behind it, down to the end
 * of the file or to the next quote. So a cell may go on over line breaks only if its quote is
 * closed as quotes are, within a bounded length, and holds no record of its own; otherwise the line
 * ends the record, and one bad quote costs one row at the most.
 */
public final class CsvTable implements TableReader {
  /** A record longer than this is not a sheet; the bound keeps one bad row from eating memory. */
  private static final int MAX_RECORD_CHARS = 1 << 20;

  /** How much is kept of a line that is too long, for people who look for it. */
  private static final int KEPT_OF_LONG_LINE = 500;

  /** Text of so few separators between quotes is never taken for a record. */
  private static final int FEWEST_SEPARATORS = 8;

  private static final int BUFFER_BYTES = 1 << 17;

  private final CsvDialect dialect;
  private final CsvLines lines;
  private final TableHeader header;
  private int separatorsPerRecord = Integer.MAX_VALUE;
  private long rowNumber;

  private CsvTable(BufferedInputStream in, CsvDialect dialect) throws IOException {
    this.dialect = dialect;
    in.skipNBytes(dialect.markBytes());
    lines = new CsvLines(new InputStreamReader(in, dialect.charset()), MAX_RECORD_CHARS);
    if (dialect.separatorLine() == CsvDialect.SeparatorLine.PRESENT) {
      lines.next();
    }
    List<String> names = nextCells();
    header = new TableHeader(names == null ? List.of() : names);
    separatorsPerRecord = Math.max(FEWEST_SEPARATORS, header.names().size() - 1);
  }

  /**
   * Opens a CSV file; gzip is recognised by its first bytes, not by its name.
   *
   * @param raw the bytes of the file; closed with the reader
   */
  public static CsvTable open(InputStream raw) throws IOException {
    BufferedInputStream bytes = new BufferedInputStream(raw, BUFFER_BYTES);
    try {
      BufferedInputStream text =
          isGzip(bytes)
              ? new BufferedInputStream(
                  new OneReadAtATime(new GZIPInputStream(bytes, BUFFER_BYTES)), BUFFER_BYTES)
              : bytes;
      return new CsvTable(text, CsvDialect.of(text));
    } catch (IOException | RuntimeException failure) {
      bytes.close();
      throw failure;
    }
  }

  /**
   * A stream that never says that more can be had at once. A buffer in front of it then hands on
   * what one read gives, instead of losing it when the next read meets the break of a cut file.
   */
  private static final class OneReadAtATime extends FilterInputStream {
    OneReadAtATime(InputStream in) {
      super(in);
    }

    @Override
    public int available() {
      return 0;
    }
  }

  private static boolean isGzip(BufferedInputStream in) throws IOException {
    in.mark(2);
    int first = in.read();
    int second = in.read();
    in.reset();
    return first == 0x1F && second == 0x8B;
  }

  @Override
  public TableHeader header() {
    return header;
  }

  @Override
  public DecimalMark decimalMark() {
    return dialect.decimalMark();
  }

  @Override
  public TableRecord next() throws IOException {
    List<String> cells = nextCells();
    if (cells == null) {
      return null;
    }
    rowNumber++;
    return new TableRecord(rowNumber, cells);
  }

  private List<String> nextCells() throws IOException {
    String line = lines.next();
    while (line != null && line.isEmpty()) {
      line = lines.next();
    }
    if (line == null) {
      return null;
    }
    if (line.length() > MAX_RECORD_CHARS) {
      return List.of(line.substring(0, KEPT_OF_LONG_LINE));
    }
    if (line.indexOf('"') < 0) {
      return CsvLexer.cellsWithoutQuotes(line, dialect.separator());
    }
    CsvLexer lexer = new CsvLexer(dialect.separator());
    lexer.feed(line);
    return lexer.open() ? cellsOverLines(line, lexer) : lexer.cells();
  }

  /** Follows an open quote over line breaks, and comes back when it is not closed as it should. */
  private List<String> cellsOverLines(String firstLine, CsvLexer lexer) {
    List<String> behind = new ArrayList<>();
    while (lexer.open() && lexer.chars() <= MAX_RECORD_CHARS) {
      String line = nextLineIfReadable();
      if (line == null) {
        break;
      }
      behind.add(line);
      lexer.feed(line);
    }
    if (lexer.open() || lexer.quotesDoubtful(separatorsPerRecord)) {
      lines.readAgain(behind);
      return CsvLexer.cellsOf(firstLine, dialect.separator());
    }
    return lexer.cells();
  }

  /** Null also where the file breaks: what stands before the break is read first. */
  private String nextLineIfReadable() {
    try {
      return lines.next();
    } catch (IOException toldByTheNextCall) {
      return null;
    }
  }

  @Override
  public void close() throws IOException {
    lines.close();
  }
}

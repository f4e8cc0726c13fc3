package borecensus.tabular;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.zip.GZIPInputStream;

/**
 * A CSV file, plain or gzip, in any of the dialects of {@link CsvDialect}.
 *
 * <p>A quote that is opened and never closed would swallow the records behind it. A record that
 * does not fit the header and holds a line break is therefore ended at that break, and what follows
 * is read again as records of its own: one bad quote costs one row.
 */
public final class CsvTable implements TableReader {
  /** A record longer than this is not a sheet; the bound keeps one bad quote from eating memory. */
  private static final int MAX_RECORD_CHARS = 1 << 20;

  private static final int BUFFER_BYTES = 1 << 17;

  private final CsvDialect dialect;
  private final CsvReader<CsvRecord> reader;

  /** The file itself below, text that is read again on top of it. */
  private final Deque<CloseableIterator<CsvRecord>> sources = new ArrayDeque<>();

  private final TableHeader header;
  private long rowNumber;

  private CsvTable(BufferedInputStream in, CsvDialect dialect) throws IOException {
    this.dialect = dialect;
    in.skipNBytes(dialect.markBytes());
    reader =
        CsvReader.builder()
            .fieldSeparator(dialect.separator())
            .maxBufferSize(MAX_RECORD_CHARS)
            .ofCsvRecord(new InputStreamReader(in, dialect.charset()));
    sources.push(reader.iterator());
    if (dialect.separatorLine() == CsvDialect.SeparatorLine.PRESENT) {
      nextCells();
    }
    List<String> names = nextCells();
    header = new TableHeader(names == null ? List.of() : names);
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
              ? new BufferedInputStream(new GZIPInputStream(bytes, BUFFER_BYTES), BUFFER_BYTES)
              : bytes;
      return new CsvTable(text, CsvDialect.of(text));
    } catch (IOException | RuntimeException failure) {
      bytes.close();
      throw failure;
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
    return new TableRecord(rowNumber, endAtLineBreakIfRagged(cells));
  }

  private List<String> endAtLineBreakIfRagged(List<String> cells) {
    if (cells.size() == header.names().size()) {
      return cells;
    }
    for (int i = 0; i < cells.size(); i++) {
      int lineBreak = cells.get(i).indexOf('\n');
      if (lineBreak >= 0) {
        readAgain(cells.get(i).substring(lineBreak + 1), cells.subList(i + 1, cells.size()));
        List<String> ended = new ArrayList<>(cells.subList(0, i));
        ended.add(cells.get(i).substring(0, lineBreak).stripTrailing());
        return ended;
      }
    }
    return cells;
  }

  private void readAgain(String text, List<String> cellsBehind) {
    StringBuilder again = new StringBuilder(text);
    for (String cell : cellsBehind) {
      again.append(dialect.separator()).append(quotedIfNeeded(cell));
    }
    if (!again.toString().isBlank()) {
      sources.push(
          CsvReader.builder()
              .fieldSeparator(dialect.separator())
              .maxBufferSize(MAX_RECORD_CHARS)
              .ofCsvRecord(again.toString())
              .iterator());
    }
  }

  private String quotedIfNeeded(String cell) {
    boolean special = cell.indexOf(dialect.separator()) >= 0 || cell.indexOf('\n') >= 0;
    return special ? '"' + cell.replace("\"", "\"\"") + '"' : cell;
  }

  private List<String> nextCells() throws IOException {
    try {
      while (!sources.peek().hasNext()) {
        if (sources.size() == 1) {
          return null;
        }
        sources.pop().close();
      }
      return sources.peek().next().getFields();
    } catch (CsvParseException | UncheckedIOException failure) {
      throw new IOException(reasonOf(failure), failure);
    }
  }

  private static String reasonOf(RuntimeException failure) {
    Throwable root = failure;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return root.getMessage() == null ? root.getClass().getSimpleName() : root.getMessage();
  }

  @Override
  public void close() throws IOException {
    for (CloseableIterator<CsvRecord> source : sources) {
      source.close();
    }
    reader.close();
  }
}

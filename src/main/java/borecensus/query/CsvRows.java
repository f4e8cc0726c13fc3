package borecensus.query;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import de.siegmar.fastcsv.writer.QuoteStrategies;
import java.io.IOException;
import java.io.Writer;
import java.util.List;

/**
 * Comma-separated values with a header, quoted as RFC 4180 says. Lines end in a line feed alone, as
 * programs in a pipe expect. NULL is an empty cell; an empty text is written as two quotes.
 */
final class CsvRows implements RowWriter {
  private final Writer out;
  private final CsvWriter csv;

  CsvRows(Writer out) {
    this.out = out;
    this.csv =
        CsvWriter.builder()
            .lineDelimiter(LineDelimiter.LF)
            .quoteStrategy(QuoteStrategies.EMPTY)
            .build(out);
  }

  @Override
  public void begin(List<String> columns) {
    csv.writeRecord(columns);
  }

  @Override
  public void row(List<Object> values) {
    csv.writeRecord(values.stream().map(CsvRows::cell).toArray(String[]::new));
  }

  private static String cell(Object value) {
    return value == null ? null : CellText.of(value);
  }

  @Override
  public void end() throws IOException {
    csv.flush();
    out.flush();
  }
}

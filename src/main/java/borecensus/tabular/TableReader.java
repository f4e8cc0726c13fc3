package borecensus.tabular;

import java.io.IOException;

/** Reads one table file from first to last record. */
public interface TableReader extends AutoCloseable {

  TableHeader header();

  DecimalMark decimalMark();

  /**
   * The next record, or null after the last.
   *
   * @throws IOException when the rest of the file cannot be read
   */
  TableRecord next() throws IOException;

  @Override
  void close() throws IOException;
}

package borecensus.night.parquet;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.schema.MessageType;

/**
 * A Parquet file whose rows say just the cells that they have, in any order.
 *
 * <p>Columns are those of {@link ParquetSchemas}: optional values, and optional lists of required
 * elements, of which each has one column of values.
 */
public final class ColumnFile implements Closeable {
  private final MessageType schema;
  private final RowGroups groups;
  private final boolean[] said;

  /**
   * Begins a file in the place of one that may be there.
   *
   * @param storage how each column is stored
   */
  public ColumnFile(Path path, MessageType schema, ParquetProperties storage) throws IOException {
    this.schema = schema;
    groups = new RowGroups(path, schema, storage);
    said = new boolean[groups.columns()];
  }

  /** Rows ended so far. */
  public long rows() {
    return groups.rows();
  }

  /** A text, by its bytes in UTF-8. */
  public void text(int column, byte[] utf8) {
    columnOf(column).text(utf8, 0, utf8.length, Level.VALUE, 1);
  }

  public void integer(int column, int value) {
    columnOf(column).integer(value, Level.VALUE, 1);
  }

  public void whole(int column, long value) {
    columnOf(column).whole(value, Level.VALUE, 1);
  }

  public void truth(int column, boolean value) {
    columnOf(column).truth(value, Level.VALUE, 1);
  }

  /** A time to the microsecond; what is finer is cut off. */
  public void time(int column, LocalDateTime time) {
    whole(column, CellWriter.micros(time));
  }

  /** A real number; NaN is one, and stays it. */
  public void real(int column, double value) {
    columnOf(column).real(value, Level.VALUE, 1);
  }

  /** A list of real numbers, NaN among them. */
  public void reals(int column, double[] values) {
    columnOf(column).reals(values);
  }

  public void wholes(int column, List<Long> values) {
    StoredColumn to = listOf(column, values.size());
    for (int i = 0; i < values.size(); i++) {
      to.whole(values.get(i), Level.ofElement(i), 1);
    }
  }

  public void texts(int column, List<String> values) {
    StoredColumn to = listOf(column, values.size());
    for (int i = 0; i < values.size(); i++) {
      byte[] utf8 = CellWriter.utf8(values.get(i));
      to.text(utf8, 0, utf8.length, Level.ofElement(i), 1);
    }
  }

  private StoredColumn listOf(int column, int elements) {
    StoredColumn to = columnOf(column);
    if (elements == 0) {
      to.absent(Level.EMPTY_LIST, 1);
    }
    return to;
  }

  private StoredColumn columnOf(int column) {
    if (said[column]) {
      throw new IllegalStateException(
          "a row has two cells in column " + schema.getFieldName(column));
    }
    said[column] = true;
    return groups.column(column);
  }

  /** Ends a row; columns of which nothing was said are absent in it. */
  public void endRow() throws IOException {
    for (int i = 0; i < said.length; i++) {
      if (!said[i]) {
        groups.column(i).absent(Level.ABSENT, 1);
      }
    }
    Arrays.fill(said, false);
    groups.endRows(1);
  }

  /** Writes what is left and the footer: without it the file cannot be read. */
  public void end() throws IOException {
    groups.end();
  }

  /** Lets go of the file, whether it was ended or not. */
  @Override
  public void close() throws IOException {
    groups.close();
  }
}

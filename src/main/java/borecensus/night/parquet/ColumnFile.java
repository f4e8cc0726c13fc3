package borecensus.night.parquet;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import org.apache.parquet.column.ColumnWriter;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.schema.MessageType;

/**
 * A Parquet file whose rows say just the cells that they have, in any order.
 *
 * <p>Columns are those of {@link ParquetSchemas}: optional values, and optional lists of required
 * elements, of which each has one column of values. The levels that tell what is absent are those
 * of the Parquet format, section "Nested Encoding" (after Melnik and others, 2010, Dremel).
 */
public final class ColumnFile implements Closeable {
  private static final int ABSENT = 0;
  private static final int PRESENT = 1;
  private static final int EMPTY_LIST = 1;
  private static final int ELEMENT = 2;
  private static final int NEW_ROW = 0;
  private static final int SAME_ROW = 1;

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

  public void text(int column, Binary text) {
    writerOf(column).write(text, NEW_ROW, PRESENT);
  }

  public void integer(int column, int value) {
    writerOf(column).write(value, NEW_ROW, PRESENT);
  }

  public void whole(int column, long value) {
    writerOf(column).write(value, NEW_ROW, PRESENT);
  }

  /** A time to the microsecond; what is finer is cut off. */
  public void time(int column, LocalDateTime time) {
    whole(column, CellWriter.micros(time));
  }

  /** A real number; NaN is one, and stays it. */
  public void real(int column, double value) {
    writerOf(column).write(value, NEW_ROW, PRESENT);
  }

  /** A list of real numbers, NaN among them. */
  public void reals(int column, double[] values) {
    ColumnWriter writer = listWriterOf(column, values.length);
    for (int i = 0; i < values.length; i++) {
      writer.write(values[i], i == 0 ? NEW_ROW : SAME_ROW, ELEMENT);
    }
  }

  public void wholes(int column, List<Long> values) {
    ColumnWriter writer = listWriterOf(column, values.size());
    for (int i = 0; i < values.size(); i++) {
      writer.write(values.get(i).longValue(), i == 0 ? NEW_ROW : SAME_ROW, ELEMENT);
    }
  }

  public void texts(int column, List<String> values) {
    ColumnWriter writer = listWriterOf(column, values.size());
    for (int i = 0; i < values.size(); i++) {
      writer.write(CellWriter.utf8(values.get(i)), i == 0 ? NEW_ROW : SAME_ROW, ELEMENT);
    }
  }

  private ColumnWriter listWriterOf(int column, int elements) {
    ColumnWriter writer = writerOf(column);
    if (elements == 0) {
      writer.writeNull(NEW_ROW, EMPTY_LIST);
    }
    return writer;
  }

  private ColumnWriter writerOf(int column) {
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
        groups.column(i).writeNull(NEW_ROW, ABSENT);
      }
    }
    Arrays.fill(said, false);
    groups.endRow();
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

package borecensus.night.parquet;

import borecensus.night.hadoop.Folders;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ColumnWriteStore;
import org.apache.parquet.column.ColumnWriter;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.hadoop.CodecFactory;
import org.apache.parquet.hadoop.ColumnChunkPageWriteStore;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.schema.MessageType;

/**
 * A Parquet file whose cells go straight to the writers of their columns. The library's consumer of
 * records looks up for every cell, and for every element of a list, where in the schema it stands:
 * that is as much work as storing it.
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

  /** How often the size is asked for: often enough for rows of thousands of bytes. */
  private static final int ROWS_BETWEEN_CHECKS = 1_000;

  private static final int COLUMN_INDEX_BYTES =
      ParquetProperties.DEFAULT_COLUMN_INDEX_TRUNCATE_LENGTH;

  private final MessageType schema;
  private final ParquetProperties storage;
  private final CodecFactory codecs;
  private final ParquetFileWriter file;
  private final ColumnWriter[] writers;
  private final boolean[] said;
  private ColumnChunkPageWriteStore pages;
  private ColumnWriteStore columns;
  private long rowsInGroup;
  private long rows;

  /**
   * Begins a file in the place of one that may be there.
   *
   * @param storage how each column is stored
   */
  public ColumnFile(Path path, MessageType schema, ParquetProperties storage) throws IOException {
    this.schema = schema;
    this.storage = storage;
    codecs = new CodecFactory(new PlainParquetConfiguration(), storage.getPageSizeThreshold());
    writers = new ColumnWriter[schema.getColumns().size()];
    said = new boolean[writers.length];
    file =
        new ParquetFileWriter(
            Folders.parquetTarget(path),
            schema,
            ParquetFileWriter.Mode.OVERWRITE,
            ParquetWriter.DEFAULT_BLOCK_SIZE,
            ParquetWriter.MAX_PADDING_SIZE_DEFAULT,
            null,
            storage);
    file.start();
    beginGroup();
  }

  private void beginGroup() {
    CompressionCodecFactory.BytesInputCompressor zstd =
        codecs.getCompressor(CompressionCodecName.ZSTD);
    pages =
        new ColumnChunkPageWriteStore(
            zstd,
            schema,
            storage.getAllocator(),
            COLUMN_INDEX_BYTES,
            storage.getPageWriteChecksumEnabled());
    columns = storage.newColumnWriteStore(schema, pages, pages);
    List<ColumnDescriptor> descriptors = schema.getColumns();
    for (int i = 0; i < writers.length; i++) {
      writers[i] = columns.getColumnWriter(descriptors.get(i));
    }
    rowsInGroup = 0;
  }

  /** Rows ended so far. */
  public long rows() {
    return rows;
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
    return writers[column];
  }

  /** Ends a row; columns of which nothing was said are absent in it. */
  public void endRow() throws IOException {
    for (int i = 0; i < writers.length; i++) {
      if (!said[i]) {
        writers[i].writeNull(NEW_ROW, ABSENT);
      }
    }
    Arrays.fill(said, false);
    columns.endRecord();
    rows++;
    rowsInGroup++;
    if (groupIsFull()) {
      endGroup();
      beginGroup();
    }
  }

  private boolean groupIsFull() {
    return rowsInGroup >= storage.getRowGroupRowCountLimit()
        || (rowsInGroup % ROWS_BETWEEN_CHECKS == 0
            && columns.getBufferedSize() > ParquetWriter.DEFAULT_BLOCK_SIZE);
  }

  private void endGroup() throws IOException {
    if (rowsInGroup > 0) {
      file.startBlock(rowsInGroup);
      columns.flush();
      pages.flushToFileWriter(file);
      file.endBlock();
    }
    columns.close();
    pages.close();
  }

  /** Writes what is left and the footer: without it the file cannot be read. */
  public void end() throws IOException {
    endGroup();
    file.end(Map.of());
  }

  /** Lets go of the file, whether it was ended or not. */
  @Override
  public void close() throws IOException {
    try {
      file.close();
    } finally {
      codecs.release();
    }
  }
}

package borecensus.night.parquet;

import borecensus.night.hadoop.Folders;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
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
import org.apache.parquet.schema.MessageType;

/**
 * The rows of one file, gathered column by column until there are enough of them for a row group.
 *
 * <p>Cells go straight to the writers of their columns. The library's own way, by records, asks at
 * each cell anew for the field's place in the schema, which costs more than storing the cell.
 */
final class RowGroups implements Closeable {
  private static final long ROW_GROUP_BYTES = ParquetWriter.DEFAULT_BLOCK_SIZE;

  /** After so many rows it is seen whether the row group is full: a row has less than 10 kB. */
  private static final int ROWS_BETWEEN_CHECKS = 1_000;

  private final MessageType schema;
  private final ParquetProperties storage;
  private final CodecFactory codecs;
  private final ParquetFileWriter file;
  private final ColumnWriter[] writers;
  private ColumnChunkPageWriteStore pages;
  private ColumnWriteStore columns;
  private long rowsInGroup;
  private long rows;

  /**
   * Begins a file in the place of one that may be there.
   *
   * @param storage how each column is stored
   */
  RowGroups(Path path, MessageType schema, ParquetProperties storage) throws IOException {
    this.schema = schema;
    this.storage = storage;
    codecs = new CodecFactory(new PlainParquetConfiguration(), storage.getPageSizeThreshold());
    writers = new ColumnWriter[schema.getColumns().size()];
    file =
        new ParquetFileWriter(
            Folders.parquetTarget(path),
            schema,
            ParquetFileWriter.Mode.OVERWRITE,
            ROW_GROUP_BYTES,
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
            storage.getColumnIndexTruncateLength(),
            storage.getPageWriteChecksumEnabled());
    columns = storage.newColumnWriteStore(schema, pages, pages);
    List<ColumnDescriptor> descriptors = schema.getColumns();
    for (int i = 0; i < writers.length; i++) {
      writers[i] = columns.getColumnWriter(descriptors.get(i));
    }
    rowsInGroup = 0;
  }

  /** How many columns of values there are. */
  int columns() {
    return writers.length;
  }

  /** Where the next row's cell of a column goes; it changes from row to row. */
  ColumnWriter column(int column) {
    return writers[column];
  }

  /** Ends a row, of which every column has been told. */
  void endRow() throws IOException {
    columns.endRecord();
    rows++;
    rowsInGroup++;
    if (groupIsFull()) {
      endGroup();
      beginGroup();
    }
  }

  /** Rows ended so far. */
  long rows() {
    return rows;
  }

  private boolean groupIsFull() {
    return rowsInGroup >= storage.getRowGroupRowCountLimit()
        || (rowsInGroup % ROWS_BETWEEN_CHECKS == 0 && columns.getBufferedSize() > ROW_GROUP_BYTES);
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

  /** Writes what is left and the footer; without it the file cannot be read. */
  void end() throws IOException {
    endGroup();
    file.end(Map.of());
  }

  /** Lets go of the file, whether it was ended or not. */
  @Override
  public void close() throws IOException {
    try {
      columns.close();
      pages.close();
      file.close();
    } finally {
      codecs.release();
    }
  }
}

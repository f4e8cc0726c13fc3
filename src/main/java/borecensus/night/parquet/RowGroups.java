package borecensus.night.parquet;

import borecensus.night.hadoop.Folders;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.hadoop.ColumnChunkPageWriteStore;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.schema.MessageType;

/**
 * The rows of one file, gathered column by column until there are enough of them for a row group.
 *
 * <p>Cells go straight to their columns, see {@link StoredColumn}. The library's own way, by
 * records, asks at each cell anew for the field's place in the schema, which costs more than
 * storing the cell.
 */
final class RowGroups implements Closeable {
  private static final long ROW_GROUP_BYTES = ParquetWriter.DEFAULT_BLOCK_SIZE;

  /** After so many rows it is seen whether pages or the row group have grown long. */
  private static final int ROWS_BETWEEN_CHECKS = 200;

  private final MessageType schema;
  private final ParquetProperties storage;
  private final ParquetFileWriter file;
  private final StoredColumn[] columns;
  private final PageBytes page = new PageBytes();
  private final PageCompressor compressor;
  private ColumnChunkPageWriteStore pages;
  private long rowsInGroup;
  private int rowsInPage;
  private int uncheckedRows;
  private long rows;

  /**
   * Begins a file in the place of one that may be there.
   *
   * @param storage how each column is stored
   */
  RowGroups(Path path, MessageType schema, ParquetProperties storage) throws IOException {
    this.schema = schema;
    this.storage = storage;
    columns = new StoredColumn[schema.getColumns().size()];
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
    compressor = new PageCompressor();
    beginGroup();
  }

  private void beginGroup() {
    pages =
        new ColumnChunkPageWriteStore(
            compressor,
            schema,
            storage.getAllocator(),
            storage.getColumnIndexTruncateLength(),
            storage.getPageWriteChecksumEnabled());
    List<ColumnDescriptor> descriptors = schema.getColumns();
    for (int i = 0; i < columns.length; i++) {
      ColumnDescriptor column = descriptors.get(i);
      columns[i] = new StoredColumn(column, pages.getPageWriter(column), storage, page, compressor);
    }
    rowsInGroup = 0;
    rowsInPage = 0;
  }

  /** How many columns of values there are. */
  int columns() {
    return columns.length;
  }

  /** Where the next rows' cells of a column go; it changes from row to row. */
  StoredColumn column(int column) {
    return columns[column];
  }

  /** Ends rows, of which every column has been told. */
  void endRows(int count) throws IOException {
    rows += count;
    rowsInGroup += count;
    rowsInPage += count;
    uncheckedRows += count;
    if (rowsInPage >= storage.getPageRowCountLimit()) {
      rowsInPage = 0;
      for (StoredColumn column : columns) {
        column.endPage();
      }
    }
    if (groupIsFull()) {
      endGroup();
      beginGroup();
    }
  }

  /** Rows ended so far. */
  long rows() {
    return rows;
  }

  private boolean groupIsFull() throws IOException {
    if (rowsInGroup >= storage.getRowGroupRowCountLimit()) {
      return true;
    }
    if (uncheckedRows < ROWS_BETWEEN_CHECKS) {
      return false;
    }
    uncheckedRows = 0;
    long buffered = 0;
    for (StoredColumn column : columns) {
      column.endLongPage();
      buffered += column.bufferedBytes();
    }
    return buffered > ROW_GROUP_BYTES;
  }

  private void endGroup() throws IOException {
    if (rowsInGroup > 0) {
      file.startBlock(rowsInGroup);
      for (StoredColumn column : columns) {
        column.end();
      }
      pages.flushToFileWriter(file);
      file.endBlock();
    }
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
      pages.close();
    } finally {
      try {
        file.close();
      } finally {
        compressor.close();
      }
    }
  }
}

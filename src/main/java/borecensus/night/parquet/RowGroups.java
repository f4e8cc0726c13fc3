package borecensus.night.parquet;

import borecensus.night.hadoop.Folders;
import borecensus.tables.Table;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.apache.parquet.column.ColumnWriteStore;
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
final class RowGroups implements AutoCloseable {
  private static final long ROW_GROUP_BYTES = ParquetWriter.DEFAULT_BLOCK_SIZE;

  /** After so many rows it is seen whether the row group is full: a row has less than 10 kB. */
  private static final int ROWS_BETWEEN_CHECKS = 1_000;

  private final MessageType schema;
  private final ParquetProperties storage;
  private final CodecFactory codecs =
      new CodecFactory(new PlainParquetConfiguration(), ParquetProperties.DEFAULT_PAGE_SIZE);
  private final ParquetFileWriter file;
  private ColumnChunkPageWriteStore pages;
  private ColumnWriteStore columns;
  private CellWriter cells;
  private long rows;

  private RowGroups(Table table, ParquetFileWriter file, ParquetProperties storage) {
    this.schema = ParquetSchemas.of(table);
    this.storage = storage;
    this.file = file;
    begin();
  }

  /** Begins a file in the place of one that may be there. */
  static RowGroups open(Table table, Path path) throws IOException {
    ParquetProperties storage = ColumnStorage.of(table);
    ParquetFileWriter file =
        new ParquetFileWriter(
            Folders.parquetTarget(path),
            ParquetSchemas.of(table),
            ParquetFileWriter.Mode.OVERWRITE,
            ROW_GROUP_BYTES,
            ParquetWriter.MAX_PADDING_SIZE_DEFAULT,
            null,
            storage);
    file.start();
    return new RowGroups(table, file, storage);
  }

  private void begin() {
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
    cells = new CellWriter(schema, columns);
    rows = 0;
  }

  void add(TableRow row) throws IOException {
    cells.row(row);
    columns.endRecord();
    rows++;
    if (rows % ROWS_BETWEEN_CHECKS == 0 && columns.getBufferedSize() > ROW_GROUP_BYTES) {
      end();
      begin();
    }
  }

  private void end() throws IOException {
    if (rows > 0) {
      file.startBlock(rows);
      columns.flush();
      pages.flushToFileWriter(file);
      file.endBlock();
    }
    columns.close();
    pages.close();
  }

  /** Writes what is left and the footer; without it the file cannot be read. */
  void finish() throws IOException {
    end();
    file.end(Map.of());
  }

  @Override
  public void close() throws IOException {
    columns.close();
    pages.close();
    codecs.release();
    file.close();
  }
}

package borecensus.night.parquet;

import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.WholeFile;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.parquet.conf.ParquetConfiguration;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.api.WriteSupport;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.api.RecordConsumer;

/**
 * The files of one table in a snapshot that is not published yet.
 *
 * <p>The name of a file is made from its number alone: a task that is repeated puts the same bytes
 * in the place of those that an earlier attempt has left, so that none counts twice and no commit
 * is needed. Each file is whole or not there. Nobody sees any of them before CURRENT names the
 * snapshot.
 *
 * @param folder as text, since it travels to the workers
 * @param hadoopSettings with which a worker finds it, when it is no local folder
 */
public record TableFile(Table table, String folder, Map<String, String> hadoopSettings)
    implements Serializable {

  /** The files of a table in a snapshot's folder. */
  public static TableFile in(Path snapshot, Table table) {
    Path folder = snapshot.resolve(table.tableName()).toAbsolutePath();
    return new TableFile(table, folder.toString(), Folders.settings(folder));
  }

  /** Where the file of a number goes. */
  public Path path(int number) {
    return Folders.path(folder, hadoopSettings).resolve("part-%05d.zstd.parquet".formatted(number));
  }

  /**
   * Writes one file.
   *
   * @param number of the file within the table, from 0
   * @return how many rows it has
   */
  public long write(int number, Iterator<? extends TableRow> rows) {
    long[] written = {0};
    try {
      WholeFile.write(
          path(number),
          file -> {
            try (ParquetWriter<TableRow> writer = new Builder(table, file).build()) {
              while (rows.hasNext()) {
                writer.write(rows.next());
                written[0]++;
              }
            }
          });
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return written[0];
  }

  private static final class Builder extends ParquetWriter.Builder<TableRow, Builder> {
    private final Table table;

    Builder(Table table, Path file) throws IOException {
      super(Folders.parquetTarget(file));
      this.table = table;
      withConf(new PlainParquetConfiguration());
      withWriteMode(ParquetFileWriter.Mode.OVERWRITE);
      withCompressionCodec(CompressionCodecName.ZSTD);
      withSizeStatisticsEnabled(false);
      ColumnStorage.withoutDictionary(table)
          .forEach(column -> withDictionaryEncoding(column, false));
      ColumnStorage.withoutLimits(table).forEach(column -> withStatisticsEnabled(column, false));
    }

    @Override
    protected Builder self() {
      return this;
    }

    /** Of no use here, and still asked for by the library. */
    @Override
    @SuppressWarnings("deprecation")
    protected WriteSupport<TableRow> getWriteSupport(Configuration settings) {
      return new Rows(table);
    }

    @Override
    protected WriteSupport<TableRow> getWriteSupport(ParquetConfiguration settings) {
      return new Rows(table);
    }
  }

  private static final class Rows extends WriteSupport<TableRow> {
    private final Table table;
    private CellWriter cells;

    Rows(Table table) {
      this.table = table;
    }

    /** Of no use here, and still asked for by the library. */
    @Override
    @SuppressWarnings("deprecation")
    public WriteContext init(Configuration settings) {
      return new WriteContext(ParquetSchemas.of(table), Map.of());
    }

    @Override
    public WriteContext init(ParquetConfiguration settings) {
      return new WriteContext(ParquetSchemas.of(table), Map.of());
    }

    @Override
    public void prepareForWrite(RecordConsumer consumer) {
      cells = new CellWriter(table, consumer);
    }

    @Override
    public void write(TableRow row) {
      cells.row(row);
    }
  }
}

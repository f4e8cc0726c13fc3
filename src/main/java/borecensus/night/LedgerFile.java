package borecensus.night;

import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import borecensus.night.parquet.ColumnFile;
import java.io.IOException;
import java.io.Serializable;
import java.nio.file.Path;
import java.util.Set;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.schema.MessageType;

/**
 * The files of one ledger batch, which counts only once a manifest names it. Each is named by its
 * number alone, so that a task that is repeated replaces what an earlier attempt has left.
 *
 * @param folder of the batch
 */
record LedgerFile(TravellingFolder folder) implements Serializable {
  private static final MessageType SCHEMA = LedgerSchema.parquet();

  /** Columns in which hardly two values are alike: a dictionary of them would be built in vain. */
  private static final Set<LedgerField> HARDLY_REPEATED =
      Set.of(
          LedgerField.ROW_NUMBERS,
          LedgerField.TEST_ID,
          LedgerField.VEHICLE_ID,
          LedgerField.ODOMETER_KM);

  private static final ParquetProperties STORAGE = storage();

  /** Writes the rows of one file. */
  @FunctionalInterface
  interface Rows {
    void writeTo(ColumnFile file) throws IOException;
  }

  /** The files of a batch. */
  static LedgerFile in(Path batch) {
    return new LedgerFile(TravellingFolder.of(batch));
  }

  /** The ledger is searched by the kind of its rows alone: least and greatest of that are kept. */
  private static ParquetProperties storage() {
    ParquetProperties.Builder storage =
        ParquetProperties.builder().withSizeStatisticsEnabled(false);
    for (LedgerField field : LedgerField.values()) {
      String path = String.join(".", SCHEMA.getColumns().get(field.ordinal()).getPath());
      storage
          .withStatisticsEnabled(path, field == LedgerField.KIND)
          .withDictionaryEncoding(path, !HARDLY_REPEATED.contains(field));
    }
    return storage.build();
  }

  /** Where the file of a number goes. */
  Path path(int number) {
    return folder.parquetPart(number);
  }

  /**
   * Writes one file.
   *
   * @param number of the file within the batch, from 0
   * @return how many rows it has
   */
  long write(int number, Rows rows) throws IOException {
    long[] written = {0};
    WholeFile.write(
        path(number),
        path -> {
          try (ColumnFile file = new ColumnFile(path, SCHEMA, STORAGE)) {
            rows.writeTo(file);
            file.end();
            written[0] = file.rows();
          }
        });
    return written[0];
  }
}

package borecensus.night.parquet;

import borecensus.night.hadoop.TravellingFolder;
import borecensus.night.hadoop.WholeFile;
import borecensus.tables.Table;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Iterator;

/**
 * The files of one table in a snapshot that is not published yet.
 *
 * <p>The name of a file is made from its number alone: a task that is repeated puts the same bytes
 * in the place of those that an earlier attempt has left, so that none counts twice and no commit
 * is needed. Each file is whole or not there. Nobody sees any of them before CURRENT names the
 * snapshot.
 *
 * @param folder of the table
 */
public record TableFile(Table table, TravellingFolder folder) implements Serializable {

  /** The files of a table in a snapshot's folder. */
  public static TableFile in(Path snapshot, Table table) {
    return new TableFile(table, TravellingFolder.of(snapshot.resolve(table.tableName())));
  }

  /** Where the file of a number goes. */
  public Path path(int number) {
    return folder.parquetPart(number);
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
            try (RowGroups groups =
                new RowGroups(file, ParquetSchemas.of(table), ColumnStorage.of(table))) {
              CellWriter cells = new CellWriter(groups);
              while (rows.hasNext()) {
                cells.rows(rows.next());
              }
              groups.end();
              written[0] = groups.rows();
            }
          });
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    return written[0];
  }
}

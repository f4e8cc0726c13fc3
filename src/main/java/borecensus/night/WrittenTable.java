package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.publish.StoreException;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.schema.Type;

/**
 * What the footers of a table's files say, read back from the disk.
 *
 * @param columns in file order
 * @param rows over all files
 */
record WrittenTable(List<String> columns, long rows) {

  /**
   * Reads the footers of all Parquet files in a folder.
   *
   * @throws StoreException when one cannot be read, or they disagree in their columns
   */
  static WrittenTable in(Path folder) {
    WrittenTable all = null;
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.parquet")) {
      for (Path file : files) {
        WrittenTable one = footer(file);
        if (all != null && !all.columns().equals(one.columns())) {
          throw new StoreException("the files of " + folder + " have different columns");
        }
        all = new WrittenTable(one.columns(), one.rows() + (all == null ? 0 : all.rows()));
      }
    } catch (IOException unreadable) {
      throw new StoreException("a written table cannot be read back: " + unreadable, unreadable);
    }
    return all == null ? new WrittenTable(List.of(), 0) : all;
  }

  private static WrittenTable footer(Path file) throws IOException {
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(file))) {
      return new WrittenTable(
          reader.getFileMetaData().getSchema().getFields().stream().map(Type::getName).toList(),
          reader.getRecordCount());
    }
  }
}

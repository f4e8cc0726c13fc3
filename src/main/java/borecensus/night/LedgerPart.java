package borecensus.night;

import borecensus.night.hadoop.Folders;
import borecensus.night.hadoop.TravellingFolder;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.hadoop.ParquetFileReader;

/**
 * Some rows of the ledger that stand together in a file: what is read of it at one time.
 *
 * @param batch the folder of the file
 * @param rowGroup within the file, from 0
 */
record LedgerPart(TravellingFolder batch, String file, int rowGroup) implements Serializable {

  /** All rows of some batches, in the order of their files. */
  static List<LedgerPart> of(List<Path> batches) {
    List<LedgerPart> parts = new ArrayList<>();
    try {
      for (Path batch : batches) {
        TravellingFolder folder = TravellingFolder.of(batch);
        for (Path file : filesOf(batch)) {
          int rowGroups = rowGroupsOf(file);
          for (int i = 0; i < rowGroups; i++) {
            parts.add(new LedgerPart(folder, file.getFileName().toString(), i));
          }
        }
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
    return parts;
  }

  private static List<Path> filesOf(Path batch) throws IOException {
    List<Path> files = new ArrayList<>();
    try (DirectoryStream<Path> listed = Files.newDirectoryStream(batch, "*.parquet")) {
      listed.forEach(files::add);
    }
    files.sort(null);
    return files;
  }

  private static int rowGroupsOf(Path file) throws IOException {
    try (ParquetFileReader reader = ParquetFileReader.open(Folders.parquet(file))) {
      return reader.getRowGroups().size();
    }
  }

  /** Opens the file that it stands in. */
  ParquetFileReader open() throws IOException {
    return ParquetFileReader.open(Folders.parquet(batch.file(file)));
  }
}

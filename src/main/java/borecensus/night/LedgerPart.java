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
 * A file of the ledger.
 *
 * @param batch its folder
 */
record LedgerPart(TravellingFolder batch, String file) implements Serializable {

  /** All files of some batches, in their order. */
  static List<LedgerPart> of(List<Path> batches) {
    List<LedgerPart> parts = new ArrayList<>();
    try {
      for (Path batch : batches) {
        TravellingFolder folder = TravellingFolder.of(batch);
        for (Path file : filesOf(batch)) {
          parts.add(new LedgerPart(folder, file.getFileName().toString()));
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

  /** Opens the file. */
  ParquetFileReader open() throws IOException {
    return ParquetFileReader.open(Folders.parquet(batch.file(file)));
  }
}

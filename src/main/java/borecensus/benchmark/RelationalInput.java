package borecensus.benchmark;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * What both ways of computing the relational part read.
 *
 * @param ledgerFiles the accepted sheets as Parquet, as the night's intake left them
 * @param fleet the fleet folder, for sites.csv and vehicles.csv
 */
record RelationalInput(List<Path> ledgerFiles, Path fleet) {

  static RelationalInput of(Path store, Path fleet) {
    try (Stream<Path> files = Files.walk(store.resolve("ledger"))) {
      return new RelationalInput(
          files.filter(f -> f.toString().endsWith(".parquet")).sorted().toList(), fleet);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}

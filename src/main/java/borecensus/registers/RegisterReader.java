package borecensus.registers;

import borecensus.tabular.CsvTable;
import borecensus.tabular.TableReader;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;

/** Streams the usable rows of one register. */
final class RegisterReader {
  private RegisterReader() {}

  /**
   * Hands every usable row on, and every problem met.
   *
   * @throws FleetInputException when the file has not the columns that it needs
   * @throws IOException when it cannot be read
   */
  static <T> void read(
      RegisterFile file,
      InputStream bytes,
      Function<RegisterRow, Optional<T>> decode,
      Consumer<T> rows,
      Consumer<RegisterProblem> problems)
      throws IOException {
    try (TableReader table = CsvTable.open(bytes)) {
      checkColumns(file, table);
      for (TableRecord record = table.next(); record != null; record = table.next()) {
        RegisterRow row =
            new RegisterRow(file, table.header(), record, table.decimalMark(), problems);
        decode.apply(row).ifPresent(rows);
      }
    }
  }

  private static void checkColumns(RegisterFile file, TableReader table) {
    for (String column : file.neededColumns()) {
      if (table.header().indexOf(column) < 0) {
        throw new FleetInputException(
            file.fileName() + " cannot be used: it has no column '" + column + "'");
      }
    }
  }
}

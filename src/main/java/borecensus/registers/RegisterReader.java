package borecensus.registers;

import borecensus.tabular.CsvTable;
import borecensus.tabular.TableReader;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
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
        if (fits(row, record, table.header().names().size())) {
          decode.apply(row).ifPresent(rows);
        }
      }
    }
  }

  /**
   * Makes sure that a file can be opened and has its columns, without reading on.
   *
   * @throws FleetInputException when the file has not the columns that it needs
   * @throws IOException when it cannot be read
   */
  static void check(RegisterFile file, InputStream bytes) throws IOException {
    try (TableReader table = CsvTable.open(bytes)) {
      checkColumns(file, table);
    }
  }

  /**
   * Blank rows are passed over. A row with more cells than columns is told and left out: an
   * unquoted separator in one of its cells has moved all that follow.
   */
  private static boolean fits(RegisterRow row, TableRecord record, int columns) {
    List<String> cells = record.cells();
    if (cells.stream().allMatch(String::isBlank)) {
      return false;
    }
    if (cells.stream().skip(columns).allMatch(String::isBlank)) {
      return true;
    }
    row.problem(
        "",
        "the row is left out, because it has "
            + cells.size()
            + " cells where the header has "
            + columns
            + "; put a cell that holds a separator in quotes");
    return false;
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

package borecensus.worklist;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import java.util.stream.Stream;

/** Writes the work list as a person opens it: in a spreadsheet. */
public final class WorkListCsv {
  private WorkListCsv() {}

  /**
   * Writes all entries in the given order, with a header; does not close {@code out}.
   *
   * @throws IOException when {@code out} takes no more
   */
  public static void write(List<WorkListEntry> entries, OutputStream out) throws IOException {
    List<String> header = columns().map(WorkListColumn::code).toList();
    List<List<String>> rows =
        entries.stream()
            .map(entry -> columns().map(column -> column.cellOf(entry)).toList())
            .toList();
    SpreadsheetCsv.write(header, rows, out);
  }

  private static Stream<WorkListColumn> columns() {
    return Stream.of(WorkListColumn.values());
  }
}

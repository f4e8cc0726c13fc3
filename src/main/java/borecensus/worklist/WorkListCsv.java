package borecensus.worklist;

import java.io.IOException;
import java.io.OutputStream;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;

/** Writes the work list as a person opens it: in a spreadsheet. */
public final class WorkListCsv {
  private WorkListCsv() {}

  /**
   * Writes all entries in the given order, with a header; does not close {@code out}.
   *
   * @throws IOException when {@code out} takes no more
   */
  public static void write(Iterator<WorkListEntry> entries, OutputStream out) throws IOException {
    List<String> header = columns().map(WorkListColumn::code).toList();
    Iterable<WorkListEntry> once = () -> entries;
    Stream<List<String>> rows =
        StreamSupport.stream(once.spliterator(), false)
            .map(entry -> columns().map(column -> column.cellOf(entry)).toList());
    SpreadsheetCsv.write(header, rows.iterator(), out);
  }

  private static Stream<WorkListColumn> columns() {
    return Stream.of(WorkListColumn.values());
  }
}

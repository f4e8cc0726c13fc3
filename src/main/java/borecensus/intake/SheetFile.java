package borecensus.intake;

import borecensus.domain.RowCode;
import borecensus.tabular.TableReader;
import borecensus.tabular.TableRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;

/**
 * One sheet file, read once from start to end. Wide records stream through; long-form records are
 * held until the end of the file, since the cylinders of a test may stand anywhere in it. A file
 * that breaks in the middle gives what stands before the break and one refusal for the rest.
 */
public final class SheetFile implements Iterator<SheetItem> {
  private final String sourceFile;
  private final TableReader table;
  private final SheetLayout layout;
  private final SheetDecoder decoder;
  private final LongSheets longSheets = new LongSheets();
  private final Deque<SheetItem> ready = new ArrayDeque<>();
  private long records;
  private boolean ended;

  private SheetFile(String sourceFile, TableReader table) {
    this.sourceFile = sourceFile;
    this.table = table;
    this.layout = new SheetLayout(table.header());
    this.decoder = new SheetDecoder(sourceFile, layout, table.decimalMark());
  }

  /**
   * Reads a file that is open; it is closed when the last item has been taken.
   *
   * @param sourceFile path below the fleet folder
   */
  public static Iterator<SheetItem> read(String sourceFile, TableReader table) {
    return new SheetFile(sourceFile, table);
  }

  /** What stands for a file that cannot be opened at all: one refused record and the end. */
  public static Iterator<SheetItem> unreadable(String sourceFile, IOException cause) {
    return List.<SheetItem>of(
            new SheetItem.Refused(restUnreadable(sourceFile, 1, cause)),
            new SheetItem.End(1, List.of()))
        .iterator();
  }

  @Override
  public boolean hasNext() {
    while (ready.isEmpty() && !ended) {
      readOne();
    }
    return !ready.isEmpty();
  }

  @Override
  public SheetItem next() {
    if (!hasNext()) {
      throw new NoSuchElementException("the file has ended");
    }
    return ready.remove();
  }

  private void readOne() {
    try {
      TableRecord record = table.next();
      if (record == null) {
        end();
      } else {
        records = record.rowNumber();
        take(decoder.decode(record));
      }
    } catch (IOException broken) {
      records++;
      ready.add(new SheetItem.Refused(restUnreadable(sourceFile, records, broken)));
      end();
    }
  }

  private void take(Decoded decoded) {
    if (decoded.refusal() != null) {
      ready.add(new SheetItem.Refused(decoded.refusal()));
    } else if (layout.form() == SheetLayout.Form.LONG) {
      longSheets.add(decoded.row());
    } else {
      ready.add(new SheetItem.Test(decoded.row()));
    }
  }

  private void end() {
    longSheets.close().forEach(row -> ready.add(new SheetItem.Test(row)));
    longSheets.refusals().forEach(refusal -> ready.add(new SheetItem.Refused(refusal)));
    longSheets.repeats().forEach(place -> ready.add(new SheetItem.Repeated(place)));
    ready.add(new SheetItem.End(records, layout.unknownColumns()));
    ended = true;
    try {
      table.close();
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  private static RowRefusal restUnreadable(String sourceFile, long rowNumber, IOException cause) {
    String message = cause.getMessage();
    String reason = message == null ? cause.getClass().getSimpleName() : message;
    return new RowRefusal(
        sourceFile,
        rowNumber,
        RowCode.MALFORMED_ROW,
        "",
        "",
        "the file cannot be read from here on: " + reason + ". Send the file again, complete.");
  }
}

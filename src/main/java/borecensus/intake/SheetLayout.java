package borecensus.intake;

import borecensus.domain.Limits;
import borecensus.tabular.TableHeader;
import borecensus.tabular.TableRecord;
import java.util.List;
import java.util.stream.IntStream;

/** Where each known column of one sheet file stands, and in which of the two forms the file is. */
final class SheetLayout {

  /** One record per test, or one per cylinder. */
  enum Form {
    WIDE,
    LONG
  }

  private final TableHeader header;
  private final int[] columnIndex = new int[SheetColumn.values().length];
  private final int[] readingIndex = new int[Limits.MAX_CYLINDERS];
  private final int[] firstIndex = new int[Limits.MAX_CYLINDERS];
  private final Form form;
  private final int cylinderColumns;

  SheetLayout(TableHeader header) {
    this.header = header;
    for (SheetColumn column : SheetColumn.values()) {
      columnIndex[column.ordinal()] = header.indexOf(column.columnName());
    }
    int last = 0;
    for (int i = 0; i < Limits.MAX_CYLINDERS; i++) {
      readingIndex[i] = header.indexOf(SheetColumn.READING_PREFIX + (i + 1));
      firstIndex[i] = header.indexOf(SheetColumn.FIRST_PREFIX + (i + 1));
      last = readingIndex[i] == TableHeader.ABSENT ? last : i + 1;
    }
    boolean isLong = last == 0 && indexOf(SheetColumn.PRESSURE) != TableHeader.ABSENT;
    form = isLong ? Form.LONG : Form.WIDE;
    cylinderColumns = isLong ? Limits.MAX_CYLINDERS : last;
  }

  Form form() {
    return form;
  }

  int indexOf(SheetColumn column) {
    return columnIndex[column.ordinal()];
  }

  /** Column index of each cylinder's reading in the wide form. */
  int[] readingIndex() {
    return readingIndex;
  }

  /** Column index of each cylinder's first-stroke reading. */
  int[] firstIndex() {
    return firstIndex;
  }

  /** The highest cylinder that the file has room for. */
  int cylinderColumns() {
    return cylinderColumns;
  }

  /** The highest cylinder for which a record of so many cells has a cell. */
  int cylindersReached(int cells) {
    if (form == Form.LONG) {
      return cylinderColumns;
    }
    int reached = 0;
    for (int i = 0; i < readingIndex.length; i++) {
      reached = readingIndex[i] >= 0 && readingIndex[i] < cells ? i + 1 : reached;
    }
    return reached;
  }

  /**
   * Header names that are not read, for a note: those that mean nothing to us, and a known one that
   * stands a second time. Empty names are spreadsheet leftovers.
   */
  List<String> unknownColumns() {
    List<String> names = header.names();
    return IntStream.range(0, names.size())
        .filter(i -> !SheetColumn.isKnown(names.get(i)) || header.indexOf(names.get(i)) < i)
        .mapToObj(names::get)
        .filter(name -> !name.isEmpty())
        .distinct()
        .toList();
  }

  /**
   * What is wrong with the shape of a record, in words; empty when it fits. Cells past the header
   * must be blank. A record may end early only where nothing but optional columns follows, or
   * reading columns behind the last one filled on it: spreadsheets drop empty cells at line ends.
   */
  String shapeProblem(TableRecord record) {
    List<String> cells = record.cells();
    if (cells.stream().allMatch(String::isBlank)) {
      return "the row is empty";
    }
    int columns = header.names().size();
    for (int i = columns; i < cells.size(); i++) {
      if (!cells.get(i).isBlank()) {
        return "the row has " + cells.size() + " cells where the header has " + columns;
      }
    }
    return cells.size() >= columns || endsBehindNeededColumns(cells.size())
        ? ""
        : "the row ends after " + cells.size() + " of " + columns + " cells";
  }

  private boolean endsBehindNeededColumns(int size) {
    List<SheetColumn> needed =
        List.of(
            SheetColumn.TEST_ID,
            SheetColumn.VEHICLE_ID,
            SheetColumn.TESTED_AT,
            SheetColumn.GAUGE_ID,
            SheetColumn.UNIT,
            SheetColumn.KIND,
            SheetColumn.CYLINDER,
            SheetColumn.PRESSURE,
            SheetColumn.ODOMETER_KM,
            SheetColumn.ODOMETER_MI,
            SheetColumn.ENGINE_HOURS);
    boolean headingComplete = needed.stream().allMatch(column -> indexOf(column) < size);
    // A row cut in the middle of its readings is told later, when the family's number is known.
    return headingComplete && (form == Form.LONG || cylindersReached(size) > 0);
  }
}

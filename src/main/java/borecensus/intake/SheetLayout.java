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
  private final CylinderColumns readings;
  private final CylinderColumns firstReadings;
  private final Form form;
  private final int cylinderColumns;

  SheetLayout(TableHeader header) {
    this.header = header;
    for (SheetColumn column : SheetColumn.values()) {
      columnIndex[column.ordinal()] = header.indexOf(column.columnName());
    }
    readings = new CylinderColumns(header, SheetColumn.READING_PREFIX);
    firstReadings = new CylinderColumns(header, SheetColumn.FIRST_PREFIX);
    boolean isLong = readings.last() == 0 && indexOf(SheetColumn.PRESSURE) != TableHeader.ABSENT;
    form = isLong ? Form.LONG : Form.WIDE;
    cylinderColumns = isLong ? Limits.MAX_CYLINDERS : readings.last();
  }

  Form form() {
    return form;
  }

  int indexOf(SheetColumn column) {
    return columnIndex[column.ordinal()];
  }

  /** The columns of the readings in the wide form. */
  CylinderColumns readings() {
    return readings;
  }

  /** The columns of the first-stroke readings. */
  CylinderColumns firstReadings() {
    return firstReadings;
  }

  /** The highest cylinder that the file has room for. */
  int cylinderColumns() {
    return cylinderColumns;
  }

  /** The highest cylinder for which a record of so many cells has a cell. */
  int cylindersReached(int cells) {
    return form == Form.LONG ? cylinderColumns : readings.reached(cells);
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
    if (allBlank(cells)) {
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

  private static boolean allBlank(List<String> cells) {
    for (String cell : cells) {
      if (!cell.isBlank()) {
        return false;
      }
    }
    return true;
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

package borecensus.intake;

import borecensus.domain.RowCode;
import borecensus.tabular.DateText;
import borecensus.tabular.DecimalMark;
import borecensus.tabular.NumberText;
import borecensus.tabular.TableHeader;
import borecensus.tabular.TableRecord;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads the cells of one record and gathers everything that is wrong with them, so that one look at
 * the list of refusals is enough to mend a row.
 */
final class SheetCells {
  private final SheetLayout layout;
  private final TableRecord record;
  private final DecimalMark mark;
  private final RowPlace place;
  private final List<RowRefusal> problems = new ArrayList<>();

  SheetCells(String sourceFile, SheetLayout layout, TableRecord record, DecimalMark mark) {
    this.layout = layout;
    this.record = record;
    this.mark = mark;
    this.place = new RowPlace(sourceFile, record.rowNumber());
  }

  String text(SheetColumn column) {
    int index = layout.indexOf(column);
    return index < 0 ? "" : record.stripped(index);
  }

  /** Text that must be there. */
  String needed(SheetColumn column) {
    String text = text(column);
    if (text.isEmpty()) {
      refuse(RowCode.MALFORMED_ROW, column.columnName(), "", column.columnName() + " is empty");
    }
    return text;
  }

  double number(SheetColumn column) {
    int index = layout.indexOf(column);
    if (index < 0) {
      return Double.NaN;
    }
    double value = numberAt(index, column.columnName());
    if (!column.holds(value)) {
      refuse(
          RowCode.READING_OUT_OF_RANGE,
          column.columnName(),
          text(column),
          column.columnName() + " must be within " + column.rangeText());
      return Double.NaN;
    }
    return value;
  }

  /** A pressure reading in the sheet's unit; NaN when the cell is blank or refused. */
  double reading(int index, String columnName) {
    double value = numberAt(index, columnName);
    if (value < 0) {
      refuse(
          RowCode.READING_OUT_OF_RANGE,
          columnName,
          record.cell(index),
          "a gauge reading cannot be negative");
      return Double.NaN;
    }
    return value;
  }

  /** The pressure readings of all cylinders, as far as they go; NaN where a cell is blank. */
  double[] readings(CylinderColumns columns) {
    double[] readings = new double[columns.last()];
    for (int c = 1; c <= readings.length; c++) {
      int index = columns.indexOf(c);
      readings[c - 1] =
          index == TableHeader.ABSENT ? Double.NaN : reading(index, columns.nameOf(c));
    }
    return SheetDecoder.trimmed(readings);
  }

  /** Whether no cylinder has anything in its cell. */
  boolean blank(CylinderColumns columns) {
    for (int c = 1; c <= columns.last(); c++) {
      int index = columns.indexOf(c);
      if (index != TableHeader.ABSENT && !record.stripped(index).isEmpty()) {
        return false;
      }
    }
    return true;
  }

  private double numberAt(int index, String columnName) {
    try {
      return NumberText.parse(record.cell(index), mark);
    } catch (NumberFormatException unreadable) {
      refuse(
          RowCode.BAD_NUMBER,
          columnName,
          record.cell(index),
          "'" + record.cell(index).strip() + "' cannot be read: " + unreadable.getMessage());
      return Double.NaN;
    }
  }

  /** The date of the test; null when it is refused. */
  LocalDateTime dateTime(SheetColumn column) {
    String text = text(column);
    try {
      return DateText.parseDateTime(text);
    } catch (DateTimeException unreadable) {
      refuse(
          RowCode.BAD_DATE,
          column.columnName(),
          text,
          text.isEmpty() ? "the date is missing" : "'" + text + "' is not a date");
      return null;
    }
  }

  void refuse(RowCode code, String column, String value, String detail) {
    problems.add(RowRefusal.of(place, code, column, value, detail));
  }

  boolean sound() {
    return problems.isEmpty();
  }

  /** The first problem, with the others of the same row named behind it. */
  RowRefusal refusal() {
    RowRefusal first = problems.get(0);
    if (problems.size() == 1) {
      return first;
    }
    List<String> others =
        problems.stream().skip(1).map(p -> p.code().code() + " in " + p.column()).toList();
    return new RowRefusal(
        first.sourceFile(),
        first.rowNumber(),
        first.code(),
        first.column(),
        first.value(),
        first.message() + " Also: " + String.join("; ", others) + ".");
  }
}

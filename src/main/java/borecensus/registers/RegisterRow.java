package borecensus.registers;

import borecensus.tabular.DateText;
import borecensus.tabular.DecimalMark;
import borecensus.tabular.NumberText;
import borecensus.tabular.TableHeader;
import borecensus.tabular.TableRecord;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Locale;
import java.util.function.Consumer;

/** One record of a register: cells by column name, with problems told as they are met. */
final class RegisterRow {
  private final RegisterFile file;
  private final TableHeader header;
  private final TableRecord record;
  private final DecimalMark mark;
  private final Consumer<RegisterProblem> problems;

  RegisterRow(
      RegisterFile file,
      TableHeader header,
      TableRecord record,
      DecimalMark mark,
      Consumer<RegisterProblem> problems) {
    this.file = file;
    this.header = header;
    this.record = record;
    this.mark = mark;
    this.problems = problems;
  }

  String text(String column) {
    int index = header.indexOf(column);
    return index < 0 ? "" : record.stripped(index);
  }

  /** The number in a column; NaN when blank, and when unreadable, which is told. */
  double number(String column) {
    try {
      return NumberText.parse(text(column), mark);
    } catch (NumberFormatException unreadable) {
      problem(column, "it is taken as not stated, because " + unreadable.getMessage());
      return Double.NaN;
    }
  }

  /** A number that makes sense only above zero; NaN otherwise. */
  double positive(String column) {
    double value = number(column);
    if (value <= 0) {
      problem(column, "it is taken as not stated, because it is not above zero");
      return Double.NaN;
    }
    return value;
  }

  /** A number that makes sense only from one bound to another; NaN otherwise, which is told. */
  double within(String column, double lowest, double highest) {
    double value = number(column);
    if (value < lowest || value > highest) {
      problem(
          column,
          String.format(
              Locale.ROOT,
              "it is taken as not stated, because it is not from %.0f to %.0f",
              lowest,
              highest));
      return Double.NaN;
    }
    return value;
  }

  /** The date in a column; null when blank, and when unreadable, which is told. */
  LocalDate date(String column) {
    String text = text(column);
    try {
      return text.isEmpty() ? null : DateText.parseDateTime(text).toLocalDate();
    } catch (DateTimeException unreadable) {
      problem(column, "it is taken as not stated, because it is not a date");
      return null;
    }
  }

  /** Tells what is wrong in a column, or with the whole row when the column is empty. */
  void problem(String column, String message) {
    String value = column.isEmpty() ? record.text() : text(column);
    problems.accept(
        new RegisterProblem(file.fileName(), record.rowNumber(), column, value, message));
  }
}

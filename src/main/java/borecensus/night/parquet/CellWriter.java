package borecensus.night.parquet;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;

/**
 * Takes the cells of rows, one after the other, in the order of a table's columns. An absent value
 * is null, an absent real number NaN. A cell that is said once counts for all rows that are told
 * together; where they differ, it is said of each.
 */
public final class CellWriter {
  private static final long MICROS_PER_SECOND = 1_000_000;
  private static final int NANOS_PER_MICRO = 1_000;

  private final RowGroups groups;
  private int column;
  private int rows;

  /** For the rows of a table: each column's values are by themselves or in lists. */
  CellWriter(RowGroups groups) {
    this.groups = groups;
  }

  /**
   * Takes one row, or those that are told together.
   *
   * @throws IllegalStateException when it has not as many cells as the table has columns
   */
  void rows(TableRow told) throws IOException {
    column = 0;
    rows = told.rows();
    if (rows == 0) {
      return;
    }
    told.writeTo(this);
    if (column != groups.columns()) {
      throw new IllegalStateException(
          "a row has %d cells where %d are declared".formatted(column, groups.columns()));
    }
    groups.endRows(rows);
  }

  private StoredColumn next() {
    return groups.column(column++);
  }

  public void absent() {
    next().absent(Level.ABSENT, rows);
  }

  public void text(String text) {
    text(utf8(text));
  }

  /** Text as it is stored; null stays null. */
  public static byte[] utf8(String text) {
    return text == null ? null : text.getBytes(StandardCharsets.UTF_8);
  }

  /** Text as it is stored, see {@link #utf8}. */
  public void text(byte[] utf8) {
    if (utf8 == null) {
      absent();
    } else {
      next().text(utf8, 0, utf8.length, Level.VALUE, rows);
    }
  }

  /**
   * Text in memory that may hold something else after this call.
   *
   * @param utf8 its bytes, in an array
   */
  public void text(ByteBuffer utf8) {
    next()
        .text(
            utf8.array(),
            utf8.arrayOffset() + utf8.position(),
            utf8.remaining(),
            Level.VALUE,
            rows);
  }

  public void integer(int value) {
    next().integer(value, Level.VALUE, rows);
  }

  /** A number of each of the rows. */
  public void integerOfEach(int[] values) {
    requireEach(values.length);
    StoredColumn to = next();
    for (int value : values) {
      to.integer(value, Level.VALUE, 1);
    }
  }

  public void whole(long value) {
    next().whole(value, Level.VALUE, rows);
  }

  public void real(double value) {
    if (Double.isNaN(value)) {
      absent();
    } else {
      next().real(value, Level.VALUE, rows);
    }
  }

  /** A number of each of the rows. */
  public void realOfEach(double[] values) {
    requireEach(values.length);
    next().realOfEach(values);
  }

  private void requireEach(int values) {
    if (values != rows) {
      throw new IllegalStateException("%d values are told of %d rows".formatted(values, rows));
    }
  }

  public void truth(boolean value) {
    next().truth(value, Level.VALUE, rows);
  }

  public void date(LocalDate date) {
    if (date == null) {
      absent();
    } else {
      epochDay(Math.toIntExact(date.toEpochDay()));
    }
  }

  /** A date as the days since 1970. */
  public void epochDay(int days) {
    integer(days);
  }

  /** A time to the microsecond; what is finer is cut off. */
  public void time(LocalDateTime time) {
    if (time == null) {
      absent();
    } else {
      epochMicros(micros(time));
    }
  }

  /** A time as the microseconds since 1970, as if it were one of UTC. */
  public void epochMicros(long micros) {
    whole(micros);
  }

  /** Microseconds since 1970, as if the time were one of UTC. */
  static long micros(LocalDateTime time) {
    return Math.addExact(
        Math.multiplyExact(time.toEpochSecond(ZoneOffset.UTC), MICROS_PER_SECOND),
        time.getNano() / NANOS_PER_MICRO);
  }

  public void texts(List<String> texts) {
    list(
        texts,
        (to, text, level) -> {
          byte[] utf8 = utf8(text);
          to.text(utf8, 0, utf8.length, level, 1);
        });
  }

  public void reals(List<Double> values) {
    list(values, (to, value, level) -> to.real(value, level, 1));
  }

  public void integers(List<Integer> values) {
    list(values, (to, value, level) -> to.integer(value, level, 1));
  }

  /**
   * Texts in memory that may hold something else after this call, see {@link #text(ByteBuffer)}.
   */
  public void texts(ByteBuffer[] texts) {
    list(
        texts.length,
        (to, index, level) -> {
          ByteBuffer utf8 = texts[index];
          int start = utf8.arrayOffset() + utf8.position();
          to.text(utf8.array(), start, utf8.remaining(), level, 1);
        });
  }

  /** A list of real numbers, NaN among them. */
  public void reals(double[] values) {
    StoredColumn to = next();
    for (int row = 0; row < rows; row++) {
      to.reals(values);
    }
  }

  public void integers(int[] values) {
    list(values.length, (to, index, level) -> to.integer(values[index], level, 1));
  }

  private interface ElementAt {
    void write(StoredColumn to, int index, Level level);
  }

  private void list(int length, ElementAt element) {
    StoredColumn to = next();
    if (length == 0) {
      to.absent(Level.EMPTY_LIST, rows);
      return;
    }
    for (int row = 0; row < rows; row++) {
      for (int i = 0; i < length; i++) {
        element.write(to, i, Level.ofElement(i));
      }
    }
  }

  private interface Element<T> {
    void write(StoredColumn to, T value, Level level);
  }

  private <T> void list(List<T> values, Element<T> element) {
    if (values == null) {
      absent();
    } else {
      list(values.size(), (to, index, level) -> element.write(to, values.get(index), level));
    }
  }
}

package borecensus.night.parquet;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.apache.parquet.column.ColumnWriter;
import org.apache.parquet.io.api.Binary;

/**
 * Takes the cells of rows, one after the other, in the order of a table's columns. An absent value
 * is null, an absent real number NaN.
 */
public final class CellWriter {
  private static final long MICROS_PER_SECOND = 1_000_000;
  private static final int NANOS_PER_MICRO = 1_000;

  /** Definition level of a value, and of a list, that is there. */
  private static final int PRESENT = 1;

  /** Definition level of an element of a list. */
  private static final int ELEMENT = 2;

  private final RowGroups rows;
  private int column;

  /** For the rows of a table: each column's values are by themselves or in lists. */
  CellWriter(RowGroups rows) {
    this.rows = rows;
  }

  /**
   * Takes one row.
   *
   * @throws IllegalStateException when it has not as many cells as the table has columns
   */
  void row(TableRow row) throws IOException {
    column = 0;
    row.writeTo(this);
    if (column != rows.columns()) {
      throw new IllegalStateException(
          "a row has %d cells where %d are declared".formatted(column, rows.columns()));
    }
    rows.endRow();
  }

  public void absent() {
    rows.column(column++).writeNull(0, 0);
  }

  public void text(String text) {
    text(utf8(text));
  }

  /** Text as it is stored; null stays null. */
  public static Binary utf8(String text) {
    return text == null
        ? null
        : Binary.fromConstantByteArray(text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Text in memory that will hold something else after the row: what a column keeps of it, in its
   * dictionary or as its least or greatest value, it copies.
   *
   * @param utf8 its bytes, in an array
   */
  public static Binary passingUtf8(ByteBuffer utf8) {
    return Binary.fromReusedByteArray(
        utf8.array(), utf8.arrayOffset() + utf8.position(), utf8.remaining());
  }

  /** Text as it is stored, see {@link #utf8} and {@link #passingUtf8}. */
  public void text(Binary text) {
    if (text == null) {
      absent();
    } else {
      rows.column(column++).write(text, 0, PRESENT);
    }
  }

  public void integer(int value) {
    rows.column(column++).write(value, 0, PRESENT);
  }

  public void whole(long value) {
    rows.column(column++).write(value, 0, PRESENT);
  }

  public void real(double value) {
    if (Double.isNaN(value)) {
      absent();
    } else {
      rows.column(column++).write(value, 0, PRESENT);
    }
  }

  public void truth(boolean value) {
    rows.column(column++).write(value, 0, PRESENT);
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
    list(texts, (to, text, repeated) -> to.write(utf8(text), repeated, ELEMENT));
  }

  public void reals(List<Double> values) {
    list(values, (to, value, repeated) -> to.write(value.doubleValue(), repeated, ELEMENT));
  }

  public void integers(List<Integer> values) {
    list(values, (to, value, repeated) -> to.write(value.intValue(), repeated, ELEMENT));
  }

  /** Texts as they are stored, see {@link #utf8} and {@link #passingUtf8}. */
  public void texts(Binary[] texts) {
    list(texts.length, (to, index, repeated) -> to.write(texts[index], repeated, ELEMENT));
  }

  /** A list of real numbers, NaN among them. */
  public void reals(double[] values) {
    list(values.length, (to, index, repeated) -> to.write(values[index], repeated, ELEMENT));
  }

  public void integers(int[] values) {
    list(values.length, (to, index, repeated) -> to.write(values[index], repeated, ELEMENT));
  }

  private interface ElementAt {
    void write(ColumnWriter to, int index, int repeated);
  }

  private void list(int length, ElementAt element) {
    ColumnWriter to = rows.column(column++);
    if (length == 0) {
      to.writeNull(0, PRESENT);
    }
    for (int i = 0; i < length; i++) {
      element.write(to, i, i == 0 ? 0 : 1);
    }
  }

  private interface Element<T> {
    void write(ColumnWriter to, T value, int repeated);
  }

  private <T> void list(List<T> values, Element<T> element) {
    if (values == null) {
      absent();
    } else if (values.isEmpty()) {
      rows.column(column++).writeNull(0, PRESENT);
    } else {
      int repeated = 0;
      for (T value : values) {
        element.write(rows.column(column), value, repeated);
        repeated = 1;
      }
      column++;
    }
  }
}

package borecensus.night.parquet;

import borecensus.tables.Table;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.Consumer;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.RecordConsumer;

/**
 * Takes the cells of rows, one after the other, in the order of a table's columns. An absent value
 * is null, an absent real number NaN.
 */
public final class CellWriter {
  private static final long MICROS_PER_SECOND = 1_000_000;
  private static final int NANOS_PER_MICRO = 1_000;

  private final RecordConsumer consumer;
  private final String[] names;
  private int column;

  CellWriter(Table table, RecordConsumer consumer) {
    this.consumer = consumer;
    this.names = table.columns().stream().map(c -> c.name()).toArray(String[]::new);
  }

  /**
   * Takes one row.
   *
   * @throws IllegalStateException when it has not as many cells as the table has columns
   */
  void row(TableRow row) {
    column = 0;
    consumer.startMessage();
    row.writeTo(this);
    consumer.endMessage();
    if (column != names.length) {
      throw new IllegalStateException(
          "a row has %d cells where %d are declared".formatted(column, names.length));
    }
  }

  public void absent() {
    column++;
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

  /** Text that stands in many rows, see {@link #utf8}. */
  public void text(Binary text) {
    if (text != null) {
      consumer.startField(names[column], column);
      consumer.addBinary(text);
      consumer.endField(names[column], column);
    }
    column++;
  }

  public void integer(int value) {
    consumer.startField(names[column], column);
    consumer.addInteger(value);
    consumer.endField(names[column], column);
    column++;
  }

  public void whole(long value) {
    consumer.startField(names[column], column);
    consumer.addLong(value);
    consumer.endField(names[column], column);
    column++;
  }

  public void real(double value) {
    if (!Double.isNaN(value)) {
      consumer.startField(names[column], column);
      consumer.addDouble(value);
      consumer.endField(names[column], column);
    }
    column++;
  }

  public void truth(boolean value) {
    consumer.startField(names[column], column);
    consumer.addBoolean(value);
    consumer.endField(names[column], column);
    column++;
  }

  public void date(LocalDate date) {
    if (date == null) {
      absent();
    } else {
      integer(Math.toIntExact(date.toEpochDay()));
    }
  }

  /** A time to the microsecond; what is finer is cut off. */
  public void time(LocalDateTime time) {
    if (time == null) {
      absent();
    } else {
      whole(micros(time));
    }
  }

  /** Microseconds since 1970, as if the time were one of UTC. */
  static long micros(LocalDateTime time) {
    return Math.addExact(
        Math.multiplyExact(time.toEpochSecond(ZoneOffset.UTC), MICROS_PER_SECOND),
        time.getNano() / NANOS_PER_MICRO);
  }

  public void texts(List<String> texts) {
    list(texts, text -> consumer.addBinary(utf8(text)));
  }

  public void reals(List<Double> values) {
    list(values, consumer::addDouble);
  }

  public void integers(List<Integer> values) {
    list(values, consumer::addInteger);
  }

  private <T> void list(List<T> values, Consumer<T> add) {
    if (values != null) {
      consumer.startField(names[column], column);
      consumer.startGroup();
      if (!values.isEmpty()) {
        consumer.startField(ParquetSchemas.LIST, 0);
        for (T value : values) {
          consumer.startGroup();
          consumer.startField(ParquetSchemas.ELEMENT, 0);
          add.accept(value);
          consumer.endField(ParquetSchemas.ELEMENT, 0);
          consumer.endGroup();
        }
        consumer.endField(ParquetSchemas.LIST, 0);
      }
      consumer.endGroup();
      consumer.endField(names[column], column);
    }
    column++;
  }
}

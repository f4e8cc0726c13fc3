package borecensus.night.parquet;

import java.util.Arrays;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/** Numbers by their bits: NaN equals NaN of the same bits, and zero is not minus zero. */
final class NumberValues implements ColumnValues {
  /** A multiplier that spreads close numbers (2 to the 64 over the golden ratio). */
  private static final long SPREAD = 0x9E3779B97F4A7C15L;

  private final PrimitiveTypeName type;
  private final int width;
  private final Repeats repeats;
  private long[] values = new long[64];
  private int size;

  /** By hash: number of a value and one, 0 where there is none; at most half full. */
  private int[] places;

  /** Leaves so many of the first bits of a hash as there are bits in a place. */
  private int shift;

  NumberValues(PrimitiveTypeName type, Repeats repeats) {
    this.type = type;
    this.width = width(type);
    this.repeats = repeats;
    makePlaces(repeats == Repeats.ANYWHERE ? 256 : 0);
  }

  private void makePlaces(int count) {
    places = new int[count];
    shift = Long.numberOfLeadingZeros(count) + 1;
  }

  private static int width(PrimitiveTypeName type) {
    return switch (type) {
      case BOOLEAN, INT32 -> Integer.BYTES;
      case INT64, DOUBLE -> Long.BYTES;
      default -> throw new IllegalArgumentException("no numbers are kept of type " + type);
    };
  }

  /** The number of a value, which is kept if need be. */
  int numberOf(long bits) {
    if (size > 0 && values[size - 1] == bits) {
      return size - 1;
    }
    return repeats == Repeats.ANYWHERE ? found(bits) : added(bits);
  }

  private int found(long bits) {
    int mask = places.length - 1;
    int place = place(bits, shift);
    while (places[place] != 0) {
      int value = places[place] - 1;
      if (values[value] == bits) {
        return value;
      }
      place = (place + 1) & mask;
    }
    places[place] = size + 1;
    int value = added(bits);
    if (2 * size > places.length) {
      grow();
    }
    return value;
  }

  /** Round numbers have low bits of zero, which a product keeps: its first bits tell them apart. */
  static int place(long bits, int shift) {
    return (int) (bits * SPREAD >>> shift);
  }

  private int added(long bits) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size] = bits;
    return size++;
  }

  private void grow() {
    makePlaces(2 * places.length);
    int mask = places.length - 1;
    for (int value = 0; value < size; value++) {
      int place = place(values[value], shift);
      while (places[place] != 0) {
        place = (place + 1) & mask;
      }
      places[place] = value + 1;
    }
  }

  /** The bits of one of them. */
  long bits(int value) {
    return values[value];
  }

  @Override
  public int size() {
    return size;
  }

  @Override
  public long bytes() {
    return (long) size * width;
  }

  @Override
  public int bytes(int value) {
    return width;
  }

  @Override
  public void put(int value, PageBytes to) {
    if (width == Long.BYTES) {
      to.eight(values[value]);
    } else {
      to.number(values[value], width);
    }
  }

  @Override
  public void putAll(Runs numbers, PageBytes to) {
    // Without repeats, those of a page stand in their order already.
    boolean inOrder = repeats == Repeats.NEIGHBOURS && numbers.length() == size;
    if (inOrder && width == Long.BYTES) {
      to.eights(values, size);
    } else {
      ColumnValues.super.putAll(numbers, to);
    }
  }

  @Override
  public void tell(int value, Statistics<?> limits) {
    long bits = values[value];
    switch (type) {
      case BOOLEAN -> limits.updateStats(bits != 0);
      case INT32 -> limits.updateStats((int) bits);
      case INT64 -> limits.updateStats(bits);
      default -> limits.updateStats(Double.longBitsToDouble(bits));
    }
  }

  @Override
  public void clear() {
    size = 0;
    Arrays.fill(places, 0);
  }
}

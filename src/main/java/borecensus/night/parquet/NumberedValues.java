package borecensus.night.parquet;

import borecensus.packed.ByteWriter;
import org.apache.parquet.io.ParquetDecodingException;

/** Values by their numbers in a dictionary, each of whose values is made ready to be copied. */
final class NumberedValues implements PageValues {
  /** A value of more bytes does not go into one number with their count. */
  private static final int MOST_IN_ONE = Long.BYTES - 1;

  private static final int COUNT_FROM_BIT = Byte.SIZE * MOST_IN_ONE;

  private final HybridNumbers numbers = new HybridNumbers();

  /**
   * The bytes of each value of the dictionary, the first one lowest, and in the highest byte how
   * many there are; 0 where they are too many. Nearly all are few: one look into memory for each
   * value that is written, where the processor waits for memory most of the time.
   */
  private final long[] few;

  private final byte[] all;

  /** Where each value of the dictionary begins among all, and where the last one ends. */
  private final int[] places;

  /**
   * Values of a dictionary.
   *
   * @param size how many values it has
   */
  NumberedValues(PageValues dictionary, int size) {
    ByteWriter written = new ByteWriter();
    places = new int[size + 1];
    for (int i = 0; i < size; i++) {
      dictionary.writeNext(written);
      places[i + 1] = written.size();
    }
    all = written.toBytes();
    few = new long[size];
    for (int i = 0; i < size; i++) {
      few[i] = inOne(places[i], places[i + 1]);
    }
  }

  private long inOne(int from, int to) {
    if (to - from > MOST_IN_ONE) {
      return 0;
    }
    long one = to - from;
    for (int at = from + MOST_IN_ONE - 1; at >= from; at--) {
      one = one << Byte.SIZE | (at < to ? all[at] & 0xff : 0);
    }
    return one;
  }

  /** Begins with the numbers that stand there; before them stands how wide they are. */
  void begin(byte[] bytes, int from, int to) {
    // Where all values are absent, not even the width is there.
    int width = from < to ? bytes[from] : 0;
    if (width < 0 || width > Integer.SIZE) {
      throw new ParquetDecodingException(
          "numbers of a dictionary cannot be " + width + " bits wide");
    }
    numbers.begin(bytes, Math.min(from + 1, to), to, width);
  }

  @Override
  public void writeNext(ByteWriter to) {
    int number = numbers.next();
    long bytes = few[number];
    if (bytes == 0) {
      int from = places[number];
      to.written(all, from, places[number + 1] - from);
    } else {
      to.lowest(bytes, (int) (bytes >>> COUNT_FROM_BIT));
    }
  }

  @Override
  public void skip() {
    numbers.next();
  }
}

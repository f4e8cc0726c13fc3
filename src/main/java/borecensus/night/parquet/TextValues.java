package borecensus.night.parquet;

import borecensus.packed.BytesHash;
import java.util.Arrays;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.io.api.Binary;

/** Texts by their bytes in UTF-8, which are copied. */
final class TextValues implements ColumnValues {
  private final Repeats repeats;
  private byte[] bytes = new byte[1 << 10];
  private int[] ends = new int[64];
  private int size;

  /** By hash: number of a value and one, 0 where there is none; at most half full. */
  private int[] places;

  private int[] hashes;

  TextValues(Repeats repeats) {
    this.repeats = repeats;
    places = new int[repeats == Repeats.ANYWHERE ? 256 : 0];
    hashes = new int[places.length / 2];
  }

  /** The number of a value, which is kept if need be. */
  int numberOf(byte[] utf8, int offset, int length) {
    if (size > 0 && isAt(size - 1, utf8, offset, length)) {
      return size - 1;
    }
    return repeats == Repeats.ANYWHERE ? found(utf8, offset, length) : added(utf8, offset, length);
  }

  private int start(int value) {
    return value == 0 ? 0 : ends[value - 1];
  }

  private boolean isAt(int value, byte[] utf8, int offset, int length) {
    return Arrays.equals(bytes, start(value), ends[value], utf8, offset, offset + length);
  }

  private int found(byte[] utf8, int offset, int length) {
    int hash = BytesHash.of(utf8, offset, length);
    int mask = places.length - 1;
    int place = hash & mask;
    while (places[place] != 0) {
      int value = places[place] - 1;
      if (hashes[value] == hash && isAt(value, utf8, offset, length)) {
        return value;
      }
      place = (place + 1) & mask;
    }
    places[place] = size + 1;
    hashes[size] = hash;
    int value = added(utf8, offset, length);
    if (2 * size >= places.length) {
      grow();
    }
    return value;
  }

  private int added(byte[] utf8, int offset, int length) {
    int start = start(size);
    if (length > bytes.length - start) {
      int needed = Math.addExact(start, length);
      bytes = Arrays.copyOf(bytes, (int) Math.min(Integer.MAX_VALUE - 8, 2L * needed));
    }
    System.arraycopy(utf8, offset, bytes, start, length);
    if (size == ends.length) {
      ends = Arrays.copyOf(ends, 2 * size);
    }
    ends[size] = start + length;
    return size++;
  }

  private void grow() {
    places = new int[2 * places.length];
    hashes = Arrays.copyOf(hashes, places.length / 2);
    int mask = places.length - 1;
    for (int value = 0; value < size; value++) {
      int place = hashes[value] & mask;
      while (places[place] != 0) {
        place = (place + 1) & mask;
      }
      places[place] = value + 1;
    }
  }

  @Override
  public int size() {
    return size;
  }

  @Override
  public long bytes() {
    return size == 0 ? 0 : ends[size - 1] + (long) size * Integer.BYTES;
  }

  @Override
  public int bytes(int value) {
    return Integer.BYTES + ends[value] - start(value);
  }

  @Override
  public void put(int value, PageBytes to) {
    int start = start(value);
    to.number(ends[value] - start, Integer.BYTES);
    to.all(bytes, start, ends[value] - start);
  }

  @Override
  public void tell(int value, Statistics<?> limits) {
    int start = start(value);
    // What is least or greatest is copied: these bytes will be others.
    limits.updateStats(Binary.fromReusedByteArray(bytes, start, ends[value] - start));
  }

  @Override
  public void clear() {
    size = 0;
    Arrays.fill(places, 0);
  }
}

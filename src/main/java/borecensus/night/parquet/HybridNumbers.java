package borecensus.night.parquet;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import org.apache.parquet.io.ParquetDecodingException;

/**
 * Reads numbers of few bits in the form that {@link HybridRuns} writes. Those that are packed are
 * taken apart many at once, and a run is looked at once: the library's own decoder goes through its
 * layers for each number.
 */
final class HybridNumbers {
  static final VarHandle LONGS =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

  private static final int BITS_OF_A_BYTE = 8;
  private static final byte[] NOTHING = {};

  /** Numbers are packed by so many. */
  private static final int GROUP = 8;

  /** Few enough for those of all columns to stay in the processor's nearest memory. */
  private static final int MOST_AT_ONCE = 256;

  private byte[] bytes;
  private int position;
  private int end;
  private int width;

  /** How often the number of a run comes yet. */
  private int repeats;

  private int repeated;

  /** Numbers that were taken apart, and the place of the next one among them. */
  private final int[] apart = new int[MOST_AT_ONCE];

  private int next;
  private int count;

  /** Numbers of the packed ones under way that are not taken apart yet. */
  private int packed;

  /** Where the first bit of these stands. */
  private long packedAt;

  /**
   * Begins anew.
   *
   * @param bitsOfANumber up to 32
   */
  void begin(byte[] from, int start, int stop, int bitsOfANumber) {
    bytes = from;
    position = start;
    end = stop;
    width = bitsOfANumber;
    repeats = 0;
    next = 0;
    count = 0;
    packed = 0;
  }

  /** Begins anew with so many zeros. */
  void zeros(int many) {
    begin(NOTHING, 0, 0, 0);
    repeated = 0;
    repeats = many;
  }

  /** The next number. Behind the last one, zeros may follow up to a whole group. */
  int next() {
    if (repeats > 0) {
      repeats--;
      return repeated;
    }
    return next < count ? apart[next++] : nextOfMore();
  }

  private int nextOfMore() {
    while (packed == 0) {
      beginRun();
      if (repeats > 0) {
        repeats--;
        return repeated;
      }
    }
    count = Math.min(packed, MOST_AT_ONCE);
    unpack();
    packed -= count;
    next = 1;
    return apart[0];
  }

  private void beginRun() {
    if (position >= end) {
      throw new ParquetDecodingException("a page ends before its numbers do");
    }
    int head = head();
    if ((head & 1) == 0) {
      repeats = head >>> 1;
      int valueBytes = (width + BITS_OF_A_BYTE - 1) / BITS_OF_A_BYTE;
      repeated = (int) lowest(position, valueBytes);
      position += valueBytes;
    } else {
      int groups = head >>> 1;
      packed = Math.multiplyExact(groups, GROUP);
      packedAt = (long) position * BITS_OF_A_BYTE;
      position = Math.addExact(position, Math.multiplyExact(groups, width));
    }
  }

  private int head() {
    int head = 0;
    int shift = 0;
    byte part;
    do {
      part = bytes[position++];
      head |= (part & 0x7f) << shift;
      shift += 7;
    } while (part < 0);
    return head;
  }

  private void unpack() {
    long mask = (1L << width) - 1;
    int lastWhole = bytes.length - Long.BYTES;
    for (int i = 0; i < count; i++) {
      int at = (int) (packedAt / BITS_OF_A_BYTE);
      long held = at <= lastWhole ? (long) LONGS.get(bytes, at) : lowest(at, Long.BYTES);
      apart[i] = (int) (held >>> (packedAt % BITS_OF_A_BYTE) & mask);
      packedAt += width;
    }
  }

  /** The number in some bytes, of which those behind the end are zero. */
  private long lowest(int from, int byteCount) {
    long number = 0;
    for (int at = Math.min(from + byteCount, bytes.length) - 1; at >= from; at--) {
      number = number << BITS_OF_A_BYTE | bytes[at] & 0xff;
    }
    return number;
  }
}

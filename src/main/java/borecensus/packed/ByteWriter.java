package borecensus.packed;

import java.io.IOException;
import java.io.OutputStream;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;

/** Numbers, texts and times to bytes; {@link ByteReader} reads them in the same order. */
public final class ByteWriter {
  static final VarHandle LONGS =
      MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

  /** What sheets state has few decimals: as tenths it takes two or three bytes, not nine. */
  static final double STEPS_PER_UNIT = 10;

  static final int ALL_BITS = 0;
  static final int ABSENT = 1;
  static final int FIRST_STEP = 2;

  private static final double MOST_STEPS = 0x1p40;
  private static final int MOST_BYTES_OF_A_NUMBER = 10;

  private byte[] bytes = new byte[256];
  private int size;

  /** Bytes written so far. */
  public int size() {
    return size;
  }

  /** A copy of what was written. */
  public byte[] toBytes() {
    return Arrays.copyOf(bytes, size);
  }

  /** Writes to a file or the like what was written here. */
  public void copyTo(OutputStream out) throws IOException {
    out.write(bytes, 0, size);
  }

  /** Forgets what was written. */
  public void clear() {
    size = 0;
  }

  private void reserve(int more) {
    if (size + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, size + more));
    }
  }

  /** A number that is not negative. */
  public void count(long value) {
    reserve(MOST_BYTES_OF_A_NUMBER);
    byte[] to = bytes;
    int at = size;
    if (value >>> 7 == 0) {
      to[at] = (byte) value;
      size = at + 1;
      return;
    }
    long left = value;
    while ((left & ~0x7fL) != 0) {
      to[at++] = (byte) (left | 0x80);
      left >>>= 7;
    }
    to[at++] = (byte) left;
    size = at;
  }

  /** Any whole number; small ones take few bytes. */
  public void whole(long value) {
    count((value << 1) ^ (value >> 63));
  }

  /** A number with evenly spread bits, such as a hash. */
  public void bits(long value) {
    reserve(Long.BYTES);
    LONGS.set(bytes, size, value);
    size += Long.BYTES;
  }

  /** The lowest bytes of a number, the very lowest first. */
  public void lowest(long value, int byteCount) {
    reserve(Long.BYTES);
    LONGS.set(bytes, size, value);
    size += byteCount;
  }

  /** A number to its last bit, NaN and its kind included. */
  public void real(double value) {
    // Whether it is the right step is seen by the next line.
    long steps = (long) (Math.min(value * STEPS_PER_UNIT, MOST_STEPS) + 0.5);
    if (steps >= 0 && sameBits(steps / STEPS_PER_UNIT, value)) {
      count(steps + FIRST_STEP);
    } else if (sameBits(value, Double.NaN)) {
      count(ABSENT);
    } else {
      count(ALL_BITS);
      bits(Double.doubleToRawLongBits(value));
    }
  }

  private static boolean sameBits(double a, double b) {
    return Double.doubleToRawLongBits(a) == Double.doubleToRawLongBits(b);
  }

  /** An array with its length. */
  public void reals(double[] values) {
    count(values.length);
    for (double value : values) {
      real(value);
    }
  }

  /** A text; null stays null. */
  public void text(String value) {
    utf8(value == null ? null : value.getBytes(StandardCharsets.UTF_8));
  }

  /** A text that is at hand in UTF-8, or other bytes, with their length; null stays null. */
  public void utf8(byte[] value) {
    if (value == null) {
      count(0);
      return;
    }
    utf8(value, 0, value.length);
  }

  /** A text among the bytes of others. */
  public void utf8(byte[] among, int from, int length) {
    count(length + 1L);
    written(among, from, length);
  }

  /** What another writer holds, with its length. */
  public void part(ByteWriter other) {
    count(other.size);
    written(other);
  }

  /** Some of what was written elsewhere, as it is. */
  public void written(byte[] elsewhere, int from, int length) {
    reserve(length);
    System.arraycopy(elsewhere, from, bytes, size, length);
    size += length;
  }

  /** What another writer holds, as it is. */
  public void written(ByteWriter elsewhere) {
    written(elsewhere.bytes, 0, elsewhere.size);
  }

  /** Whether exactly these bytes were written. */
  public boolean holds(byte[] others) {
    return Arrays.equals(bytes, 0, size, others, 0, others.length);
  }

  /** The bytes with their length that were written from a place on; null where null was. */
  public byte[] utf8At(int place) {
    return new ByteReader(bytes, place).bytes();
  }

  /** A word of an enumeration; null stays null. */
  public void word(Enum<?> value) {
    count(value == null ? 0 : value.ordinal() + 1L);
  }

  /** A day; null stays null. */
  public void day(LocalDate value) {
    count(value == null ? 0 : 1);
    if (value != null) {
      whole(value.toEpochDay());
    }
  }

  /** A local time to the nanosecond. */
  public void time(LocalDateTime value) {
    whole(value.toEpochSecond(ZoneOffset.UTC));
    count(value.getNano());
  }
}

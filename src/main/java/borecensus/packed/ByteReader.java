package borecensus.packed;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;

/** Reads what {@link ByteWriter} has written, in the same order. */
public final class ByteReader {
  private final byte[] bytes;
  private int at;

  public ByteReader(byte[] bytes) {
    this(bytes, 0);
  }

  /** Reads from a place within the bytes. */
  public ByteReader(byte[] bytes, int from) {
    this.bytes = bytes;
    this.at = from;
  }

  /** Whether there is more to read. */
  public boolean hasMore() {
    return at < bytes.length;
  }

  /** Where the next value begins. */
  public int position() {
    return at;
  }

  /** Passes over bytes. */
  public void skip(int count) {
    at += count;
  }

  public long count() {
    byte next = bytes[at++];
    if (next >= 0) {
      return next;
    }
    long value = 0;
    int shift = 0;
    while (next < 0) {
      value |= (next & 0x7fL) << shift;
      shift += 7;
      next = bytes[at++];
    }
    return value | ((long) next << shift);
  }

  public long whole() {
    long value = count();
    return (value >>> 1) ^ -(value & 1);
  }

  public long bits() {
    long value = (long) ByteWriter.LONGS.get(bytes, at);
    at += Long.BYTES;
    return value;
  }

  public double real() {
    long form = count();
    if (form >= ByteWriter.FIRST_STEP) {
      return (form - ByteWriter.FIRST_STEP) / ByteWriter.STEPS_PER_UNIT;
    }
    return form == ByteWriter.ABSENT ? Double.NaN : Double.longBitsToDouble(bits());
  }

  public double[] reals() {
    double[] values = new double[(int) count()];
    for (int i = 0; i < values.length; i++) {
      values[i] = real();
    }
    return values;
  }

  /** Bytes with their length, as {@link ByteWriter#utf8} writes them; null stays null. */
  public byte[] bytes() {
    int length = (int) count() - 1;
    if (length < 0) {
      return null;
    }
    byte[] value = Arrays.copyOfRange(bytes, at, at + length);
    at += length;
    return value;
  }

  /** Passes over bytes with their length. */
  public void skipBytes() {
    int length = (int) count() - 1;
    at += Math.max(0, length);
  }

  public String text() {
    int length = (int) count() - 1;
    if (length <= 0) {
      return length < 0 ? null : "";
    }
    String text = new String(bytes, at, length, StandardCharsets.UTF_8);
    at += length;
    return text;
  }

  /** A text that comes again and again. */
  public String text(KnownTexts known) {
    int length = (int) count() - 1;
    if (length <= 0) {
      return length < 0 ? null : "";
    }
    String text = known.of(bytes, at, at + length);
    at += length;
    return text;
  }

  /** The word of an enumeration, given all of its words. */
  public <E extends Enum<E>> E word(E[] words) {
    int place = (int) count() - 1;
    return place < 0 ? null : words[place];
  }

  public LocalDate day() {
    return count() == 0 ? null : LocalDate.ofEpochDay(whole());
  }

  public LocalDateTime time() {
    long second = whole();
    return LocalDateTime.ofEpochSecond(second, (int) count(), ZoneOffset.UTC);
  }
}

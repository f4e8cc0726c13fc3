package borecensus.night.parquet;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import org.apache.parquet.bytes.BytesInput;

/** The bytes of one page, little-endian as the Parquet format has them; used again and again. */
final class PageBytes {
  private static final int BITS_OF_A_BYTE = 8;

  private byte[] bytes = new byte[1 << 12];
  private int size;

  int size() {
    return size;
  }

  void clear() {
    size = 0;
  }

  /** Takes back what was written since it had this size. */
  void back(int earlierSize) {
    size = earlierSize;
  }

  /** What was written; good until it is written to again. */
  BytesInput written() {
    return BytesInput.from(bytes, 0, size);
  }

  /** How many bytes what was written from there on takes when it is compressed. */
  int compressedBytes(int from, PageCompressor compressor) {
    return compressor.compress(bytes, from, size - from);
  }

  /** A copy of what was written. */
  byte[] copied() {
    return Arrays.copyOf(bytes, size);
  }

  private void reserve(int more) {
    if (more > bytes.length - size) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, Math.addExact(size, more)));
    }
  }

  /**
   * All eight bytes of a number: byte by byte in a row, which any of Java's compilers does well.
   */
  void eight(long value) {
    reserve(Long.BYTES);
    byte[] to = bytes;
    int at = size;
    to[at] = (byte) value;
    to[at + 1] = (byte) (value >>> 8);
    to[at + 2] = (byte) (value >>> 16);
    to[at + 3] = (byte) (value >>> 24);
    to[at + 4] = (byte) (value >>> 32);
    to[at + 5] = (byte) (value >>> 40);
    to[at + 6] = (byte) (value >>> 48);
    to[at + 7] = (byte) (value >>> 56);
    size = at + Long.BYTES;
  }

  /** All eight bytes of each of the first numbers. */
  void eights(long[] values, int count) {
    int length = Math.multiplyExact(Long.BYTES, count);
    reserve(length);
    ByteBuffer.wrap(bytes, size, length)
        .order(ByteOrder.LITTLE_ENDIAN)
        .asLongBuffer()
        .put(values, 0, count);
    size += length;
  }

  /** The lowest bytes of a number. */
  void number(long value, int byteCount) {
    reserve(byteCount);
    byte[] to = bytes;
    int at = size;
    for (int i = 0; i < byteCount; i++) {
      to[at + i] = (byte) (value >>> (BITS_OF_A_BYTE * i));
    }
    size = at + byteCount;
  }

  /** A number that is not negative, seven bits to a byte. */
  void count(int value) {
    int left = value;
    while ((left & ~0x7f) != 0) {
      number(left | 0x80, 1);
      left >>>= 7;
    }
    number(left, 1);
  }

  void all(byte[] from, int offset, int length) {
    reserve(length);
    System.arraycopy(from, offset, bytes, size, length);
    size += length;
  }

  /**
   * Writes again what was written last.
   *
   * @param from where that began
   * @param times how often more
   */
  void again(int from, int times) {
    int length = size - from;
    reserve(Math.multiplyExact(length, times));
    for (int i = 0; i < times; i++) {
      System.arraycopy(bytes, from, bytes, size, length);
      size += length;
    }
  }

  /**
   * Levels with the length of their bytes, as they stand in a page of the format's first version;
   * nothing where all of them are 0.
   *
   * @param largest that a level of the column can be
   */
  void levels(Runs levels, int largest) {
    if (largest > 0) {
      int at = room(Integer.BYTES);
      HybridRuns.write(levels, HybridRuns.width(largest), this);
      fill(at, size - at - Integer.BYTES, Integer.BYTES);
    }
  }

  /** Leaves room for a number that is known later. */
  int room(int byteCount) {
    int at = size;
    number(0, byteCount);
    return at;
  }

  /** Fills room that was left. */
  void fill(int at, long value, int byteCount) {
    int end = size;
    size = at;
    number(value, byteCount);
    size = end;
  }
}

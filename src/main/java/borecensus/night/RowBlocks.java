package borecensus.night;

import java.util.Arrays;
import java.util.Iterator;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;
import org.apache.spark.unsafe.Platform;

/**
 * Rows in Spark's own form as blocks of bytes without the words that are zero: most columns of most
 * rows are absent. A row is its length in bytes, how many words it has, and for each 64 of them a
 * mask of those that are there, and these.
 */
final class RowBlocks {
  private static final int BLOCK_BYTES = 1 << 16;
  private static final int HEAD_BYTES = 2 * Integer.BYTES;
  private static final int BITS_AT_A_TIME = 8;
  private static final long FIRST_BITS = (1L << BITS_AT_A_TIME) - 1;

  private RowBlocks() {}

  /** Writes rows to a block until it is full. */
  static final class Writer {
    private byte[] bytes = new byte[2 * BLOCK_BYTES];
    private int size;

    boolean isFull() {
      return size >= BLOCK_BYTES;
    }

    boolean isEmpty() {
      return size == 0;
    }

    void add(UnsafeRow row) {
      int words = row.getSizeInBytes() / Long.BYTES;
      int masks = (words + Long.SIZE - 1) / Long.SIZE;
      reserve(HEAD_BYTES + (masks + words) * Long.BYTES);
      int start = size;
      size += HEAD_BYTES;
      for (int first = 0; first < words; first += Long.SIZE) {
        write(row, first, Math.min(words, first + Long.SIZE));
      }
      Platform.putInt(bytes, Platform.BYTE_ARRAY_OFFSET + start, size - start);
      Platform.putInt(bytes, Platform.BYTE_ARRAY_OFFSET + start + Integer.BYTES, words);
    }

    private void write(UnsafeRow row, int first, int end) {
      Object base = row.getBaseObject();
      long from = row.getBaseOffset() + (long) first * Long.BYTES;
      long mask = 0;
      int to = size + Long.BYTES;
      for (int i = 0; i < end - first; i++) {
        long word = Platform.getLong(base, from + (long) i * Long.BYTES);
        if (word != 0) {
          mask |= 1L << i;
          Platform.putLong(bytes, Platform.BYTE_ARRAY_OFFSET + to, word);
          to += Long.BYTES;
        }
      }
      Platform.putLong(bytes, Platform.BYTE_ARRAY_OFFSET + size, mask);
      size = to;
    }

    /** Adds the next row of a reader as it is. */
    void addNextOf(Reader rows) {
      rows.fill();
      int length = rows.length();
      reserve(length);
      System.arraycopy(rows.block, rows.at, bytes, size, length);
      size += length;
      rows.at += length;
    }

    private void reserve(int more) {
      if (size + more > bytes.length) {
        bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, size + more));
      }
    }

    /** What was written; the next row begins a new block. */
    byte[] take() {
      byte[] block = Arrays.copyOf(bytes, size);
      size = 0;
      return block;
    }
  }

  /** Reads rows, each in the place of the last one, or passes over them. */
  static final class Reader {
    private final Iterator<byte[]> blocks;
    private final UnsafeRow row;
    private long[] words = new long[256];
    private byte[] block = {};
    private int at;

    /** Reads the rows of some blocks, all of so many fields. */
    Reader(Iterator<byte[]> blocks, int fields) {
      this.blocks = blocks;
      this.row = new UnsafeRow(fields);
    }

    boolean hasNext() {
      return at < block.length || blocks.hasNext();
    }

    private void fill() {
      if (at == block.length) {
        block = blocks.next();
        at = 0;
      }
    }

    private int length() {
      return Platform.getInt(block, Platform.BYTE_ARRAY_OFFSET + at);
    }

    void skip() {
      fill();
      at += length();
    }

    UnsafeRow next() {
      fill();
      int count = Platform.getInt(block, Platform.BYTE_ARRAY_OFFSET + at + Integer.BYTES);
      if (words.length < count) {
        words = new long[2 * count];
      }
      Arrays.fill(words, 0, count, 0);
      long from = Platform.BYTE_ARRAY_OFFSET + at + HEAD_BYTES;
      for (int first = 0; first < count; first += Long.SIZE) {
        from = read(first, from);
      }
      at += length();
      row.pointTo(words, Platform.LONG_ARRAY_OFFSET, count * Long.BYTES);
      return row;
    }

    /** Bit after bit: to look for the next one takes an instruction that quick compilers lack. */
    private long read(int first, long from) {
      long to = from + Long.BYTES;
      int word = first;
      for (long left = Platform.getLong(block, from); left != 0; left >>>= 1) {
        while ((left & FIRST_BITS) == 0) {
          left >>>= BITS_AT_A_TIME;
          word += BITS_AT_A_TIME;
        }
        if ((left & 1) != 0) {
          words[word] = Platform.getLong(block, to);
          to += Long.BYTES;
        }
        word++;
      }
      return to;
    }
  }
}

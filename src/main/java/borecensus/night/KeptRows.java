package borecensus.night;

import borecensus.packed.ByteReader;
import borecensus.packed.ByteWriter;
import java.util.Arrays;
import java.util.Iterator;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.storage.StorageLevel;
import org.apache.spark.unsafe.Platform;

/**
 * Rows that a step has made and later steps read again and again, kept in memory or, where that is
 * full, on disk. They are kept as blocks of Spark's own bytes without the words that are zero: most
 * columns of most rows are absent. Spark's own way to keep rows takes each apart into columns,
 * which costs more than many a step that reads them.
 */
final class KeptRows {
  private static final int BLOCK_BYTES = 1 << 16;
  private static final int PARTS_PER_CORE = 4;

  private final JavaRDD<byte[]> blocks;
  private final StructType schema;

  private KeptRows(JavaRDD<byte[]> blocks, StructType schema) {
    this.blocks = blocks;
    this.schema = schema;
  }

  /** Keeps rows from when they are first read. */
  static KeptRows of(Dataset<Row> rows) {
    return of(rows.queryExecution().toRdd().toJavaRDD(), rows.schema());
  }

  /**
   * The same of rows in Spark's own form.
   *
   * @param rows of type {@link UnsafeRow}
   */
  static KeptRows of(JavaRDD<InternalRow> rows, StructType schema) {
    return new KeptRows(
        rows.mapPartitions(part -> (Iterator<byte[]>) new Blocks(part))
            .persist(StorageLevel.MEMORY_AND_DISK()),
        schema);
  }

  /** The same of rows of values, none of which Spark needs a plan for. */
  static KeptRows ofValues(JavaRDD<Row> rows, StructType schema) {
    return of(rows.mapPartitions(part -> new PackedRows(part, schema)), schema);
  }

  /** All rows, in few partitions. */
  Dataset<Row> rows() {
    return ((org.apache.spark.sql.classic.SparkSession) SparkSession.active())
        .internalCreateDataFrame(rowsInFewParts().rdd(), schema, false);
  }

  /**
   * The rows of some partitions together, in Spark's own form; each is overwritten by the next one.
   * Where a row is only looked at, a task takes longer to begin than to go over a partition.
   */
  JavaRDD<InternalRow> rowsInFewParts() {
    JavaRDD<InternalRow> rows = internalRows();
    return rows.coalesce(PARTS_PER_CORE * rows.context().defaultParallelism());
  }

  /** All rows by partition, in Spark's own form; each is overwritten by the next one. */
  JavaRDD<InternalRow> internalRows() {
    int fields = schema.length();
    return blocks.mapPartitions(part -> new Rows(part, fields));
  }

  /** Frees the place that the rows take. */
  void forget() {
    blocks.unpersist();
  }

  private static final class Blocks implements Iterator<byte[]> {
    private final Iterator<InternalRow> rows;
    private final ByteWriter out = new ByteWriter();

    Blocks(Iterator<InternalRow> rows) {
      this.rows = rows;
    }

    @Override
    public boolean hasNext() {
      return rows.hasNext();
    }

    @Override
    public byte[] next() {
      out.clear();
      do {
        write((UnsafeRow) rows.next());
      } while (out.size() < BLOCK_BYTES && rows.hasNext());
      return out.toBytes();
    }

    private void write(UnsafeRow row) {
      int words = row.getSizeInBytes() / Long.BYTES;
      out.count(words);
      for (int first = 0; first < words; first += Long.SIZE) {
        write(row, first, Math.min(words, first + Long.SIZE));
      }
    }

    private void write(UnsafeRow row, int first, int end) {
      Object base = row.getBaseObject();
      long at = row.getBaseOffset() + (long) first * Long.BYTES;
      long present = 0;
      for (int i = 0; i < end - first; i++) {
        present |= Platform.getLong(base, at + (long) i * Long.BYTES) == 0 ? 0 : 1L << i;
      }
      out.bits(present);
      for (long left = present; left != 0; left &= left - 1) {
        out.bits(Platform.getLong(base, at + (long) Long.numberOfTrailingZeros(left) * Long.BYTES));
      }
    }
  }

  private static final class Rows implements Iterator<InternalRow> {
    private final Iterator<byte[]> blocks;
    private final UnsafeRow row;
    private long[] words = new long[256];
    private ByteReader in = new ByteReader(new byte[0]);

    Rows(Iterator<byte[]> blocks, int fields) {
      this.blocks = blocks;
      this.row = new UnsafeRow(fields);
    }

    @Override
    public boolean hasNext() {
      return in.hasMore() || blocks.hasNext();
    }

    @Override
    public InternalRow next() {
      if (!in.hasMore()) {
        in = new ByteReader(blocks.next());
      }
      int count = (int) in.count();
      if (words.length < count) {
        words = new long[2 * count];
      }
      for (int first = 0; first < count; first += Long.SIZE) {
        read(first, Math.min(count, first + Long.SIZE));
      }
      row.pointTo(words, Platform.LONG_ARRAY_OFFSET, count * Long.BYTES);
      return row;
    }

    private void read(int first, int end) {
      Arrays.fill(words, first, end, 0);
      for (long left = in.bits(); left != 0; left &= left - 1) {
        words[first + Long.numberOfTrailingZeros(left)] = in.bits();
      }
    }
  }
}

package borecensus.night;

import java.io.Serializable;
import java.util.Iterator;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.catalyst.expressions.UnsafeRow;
import org.apache.spark.sql.types.StructType;
import org.apache.spark.storage.StorageLevel;

/**
 * Rows that a step has made and later steps read again and again, kept in memory or, where that is
 * full, on disk. They are kept as {@link RowBlocks}. Spark's own way to keep rows takes each apart
 * into columns, which costs more than many a step that reads them.
 */
final class KeptRows {
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
    return ofBlocks(rows.mapPartitions(part -> (Iterator<byte[]>) new Blocks(part)), schema);
  }

  /** The same of {@link RowBlocks}. */
  static KeptRows ofBlocks(JavaRDD<byte[]> blocks, StructType schema) {
    return new KeptRows(blocks.persist(StorageLevel.MEMORY_AND_DISK()), schema);
  }

  /** All rows as {@link RowBlocks}, by partition. */
  JavaRDD<byte[]> blocks() {
    return blocks;
  }

  /** Keeps rows of values, for which Spark needs no plan. */
  static KeptRows ofValues(JavaRDD<Row> rows, StructType schema) {
    return of(rows.mapPartitions(part -> new PackedRows(part, schema)), schema);
  }

  /** All rows, each partition in the order in which it was made. */
  Dataset<Row> rows() {
    return dataset(internalRows());
  }

  /** All rows, in few partitions and in no order. */
  Dataset<Row> unorderedRows() {
    return dataset(rowsInFewParts());
  }

  /** What is told anew of rows that are kept as they were. */
  interface Renewal extends Serializable {
    /** Tells it in the place of the row. */
    void renew(UnsafeRow row);
  }

  /** The same, renewed. */
  Dataset<Row> unorderedRows(Renewal renewal) {
    return dataset(
        rowsInFewParts()
            .map(
                row -> {
                  renewal.renew((UnsafeRow) row);
                  return row;
                }));
  }

  private Dataset<Row> dataset(JavaRDD<InternalRow> rows) {
    return ((org.apache.spark.sql.classic.SparkSession) SparkSession.active())
        .internalCreateDataFrame(rows.rdd(), schema, false);
  }

  /**
   * The rows of some partitions together, in no order and in Spark's own form; each is overwritten
   * by the next one. Where a row is only looked at, a task takes longer to begin than to go over a
   * partition.
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
    private final RowBlocks.Writer out = new RowBlocks.Writer();

    Blocks(Iterator<InternalRow> rows) {
      this.rows = rows;
    }

    @Override
    public boolean hasNext() {
      return rows.hasNext();
    }

    @Override
    public byte[] next() {
      do {
        out.add((UnsafeRow) rows.next());
      } while (!out.isFull() && rows.hasNext());
      return out.take();
    }
  }

  private static final class Rows implements Iterator<InternalRow> {
    private final RowBlocks.Reader rows;

    Rows(Iterator<byte[]> blocks, int fields) {
      this.rows = new RowBlocks.Reader(blocks, fields);
    }

    @Override
    public boolean hasNext() {
      return rows.hasNext();
    }

    @Override
    public InternalRow next() {
      return rows.next();
    }
  }
}

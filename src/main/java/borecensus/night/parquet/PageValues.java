package borecensus.night.parquet;

import borecensus.packed.ByteWriter;

/** The values of a page, one after the other. */
interface PageValues {

  /** Writes the next value as {@link PackedColumn} tells it. */
  void writeNext(ByteWriter to);

  /** Passes over the next value. */
  void skip();
}

package borecensus.night.parquet;

import org.apache.parquet.column.statistics.Statistics;

/** Values of one column, of which those found to be equal are kept once, numbered from 0. */
interface ColumnValues {
  int size();

  /** Bytes of all of them as they are stored. */
  long bytes();

  /** Bytes of one of them as it is stored. */
  int bytes(int value);

  /** Writes one of them in the format's encoding "plain". */
  void put(int value, PageBytes to);

  /** Writes those of these numbers, in their order, in the format's encoding "plain". */
  default void putAll(Runs numbers, PageBytes to) {
    for (int run = 0; run < numbers.runs(); run++) {
      int start = to.size();
      put(numbers.value(run), to);
      if (numbers.count(run) > 1) {
        to.again(start, numbers.count(run) - 1);
      }
    }
  }

  /** Tells least and greatest of one of them. */
  void tell(int value, Statistics<?> limits);

  void clear();
}

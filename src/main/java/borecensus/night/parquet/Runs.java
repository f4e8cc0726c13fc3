package borecensus.night.parquet;

import java.util.Arrays;

/** Whole numbers, not negative, of which equal neighbours are kept as one with their number. */
final class Runs {
  private int[] values = new int[64];
  private int[] counts = new int[64];
  private int runs;
  private int length;

  /** The same number so many times. */
  void add(int value, int count) {
    length += count;
    if (runs > 0 && values[runs - 1] == value) {
      counts[runs - 1] += count;
      return;
    }
    if (runs == values.length) {
      values = Arrays.copyOf(values, 2 * runs);
      counts = Arrays.copyOf(counts, 2 * runs);
    }
    values[runs] = value;
    counts[runs++] = count;
  }

  int runs() {
    return runs;
  }

  /** How many numbers, equal neighbours counted each. */
  int length() {
    return length;
  }

  int value(int run) {
    return values[run];
  }

  int count(int run) {
    return counts[run];
  }

  void clear() {
    runs = 0;
    length = 0;
  }
}

package borecensus.benchmark;

import java.io.Serializable;
import java.util.Arrays;

/** A growing array of numbers. */
final class Numbers implements Serializable {
  private double[] values = new double[64];
  private int size;

  void add(double value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
  }

  double[] toArray() {
    return Arrays.copyOf(values, size);
  }

  /** Several arrays as one. */
  static double[] joined(Iterable<double[]> parts) {
    int length = 0;
    for (double[] part : parts) {
      length += part.length;
    }
    double[] joined = new double[length];
    int from = 0;
    for (double[] part : parts) {
      System.arraycopy(part, 0, joined, from, part.length);
      from += part.length;
    }
    return joined;
  }

  /**
   * Centiles by linear interpolation (Hyndman and Fan, 1996, definition 7); sorts the values where
   * they stand.
   */
  static double[] centiles(double[] values) {
    Arrays.sort(values);
    return Arrays.stream(RelationalAnswers.CENTILES).map(p -> centile(values, p)).toArray();
  }

  private static double centile(double[] sorted, double p) {
    double place = p * (sorted.length - 1);
    int below = (int) place;
    int above = Math.min(sorted.length - 1, below + 1);
    return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
  }
}

package borecensus.report;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * The usages that a chart shows, km or hours.
 *
 * @param to above from
 */
record Window(double from, double to) {

  /** Takes in all usages that are known, and is at least so wide; never below zero. */
  static Window around(double[] usage, double leastWidth) {
    double[] known = Arrays.stream(usage).filter(Double::isFinite).toArray();
    double low = Arrays.stream(known).min().orElse(0);
    double high = Arrays.stream(known).max().orElse(0);
    double least = Double.isFinite(leastWidth) && leastWidth > 0 ? leastWidth : 1;
    double more = Math.max(0, least - (high - low));
    double from = Math.max(0, low - more / 2);
    return new Window(from, Math.max(high, from + Math.max(least, high - from)));
  }

  /** So many usages from one end to the other, at the same distance. */
  double[] points(int count) {
    return IntStream.range(0, count)
        .mapToDouble(i -> from + (to - from) * i / (count - 1))
        .toArray();
  }
}

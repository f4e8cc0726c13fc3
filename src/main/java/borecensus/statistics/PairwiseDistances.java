package borecensus.statistics;

import java.util.Arrays;

/**
 * The order statistics of |x_i - x_j| on which Qn and Sn rest, without forming all pairs.
 *
 * <p>Both need finite values and at least two of them. They return exactly the number that sorting
 * all rounded differences would: a rounded difference never falls when its minuend grows, so
 * counting on the sorted values and counting on the differences agree.
 */
final class PairwiseDistances {
  private PairwiseDistances() {}

  /**
   * The k-th smallest of the n (n - 1) / 2 distances, k = h (h - 1) / 2, h = floor(n / 2) + 1.
   *
   * <p>Non-negative doubles are ordered as their bit patterns are, so halving the interval of bit
   * patterns ends at the exact order statistic after at most 63 counts of O(n) each.
   */
  static double qnOrderStatistic(double[] x) {
    double[] sorted = sorted(x);
    long h = sorted.length / 2 + 1L;
    long k = h * (h - 1L) / 2L;
    long low = 0L;
    long high = Double.doubleToLongBits(sorted[sorted.length - 1] - sorted[0]);
    while (low < high) {
      long middle = low + (high - low) / 2L;
      if (pairsWithin(sorted, Double.longBitsToDouble(middle)) >= k) {
        high = middle;
      } else {
        low = middle + 1L;
      }
    }
    return Double.longBitsToDouble(low);
  }

  /** How many pairs lie no further apart than a distance. */
  private static long pairsWithin(double[] sorted, double distance) {
    long pairs = 0L;
    int first = 0;
    for (int i = 1; i < sorted.length; i++) {
      while (sorted[i] - sorted[first] > distance) {
        first++;
      }
      pairs += i - first;
    }
    return pairs;
  }

  /**
   * The low median over i of the high median over j of |x_i - x_j|, j = i included.
   *
   * <p>The floor(n / 2) + 1 values nearest to x_i stand side by side in sorted order, and the
   * window that holds them only moves up as i does.
   */
  static double snOrderStatistic(double[] x) {
    double[] sorted = sorted(x);
    int n = sorted.length;
    int window = n / 2 + 1;
    double[] highMedians = new double[n];
    int first = 0;
    for (int i = 0; i < n; i++) {
      while (first + window < n && sorted[first + window] - sorted[i] < sorted[i] - sorted[first]) {
        first++;
      }
      highMedians[i] = Math.max(sorted[i] - sorted[first], sorted[first + window - 1] - sorted[i]);
    }
    Arrays.sort(highMedians);
    return highMedians[(n + 1) / 2 - 1];
  }

  private static double[] sorted(double[] x) {
    double[] copy = x.clone();
    Arrays.sort(copy);
    return copy;
  }
}

package borecensus.evaluate;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Average precision of a ranking: sum over distinct scores of (recall gained) x precision
 * (non-interpolated; Manning, Raghavan and Schuetze, 2008, <i>Introduction to Information
 * Retrieval</i>, section 8.4). Tied engines are taken together.
 */
final class AveragePrecision {
  private AveragePrecision() {}

  /**
   * The average precision, 1 for a perfect ranking and about the share of faulty engines for one by
   * chance; NaN when none is faulty.
   *
   * @param score by engine, highest ranked first; not NaN
   */
  static double of(double[] score, boolean[] faulty) {
    int[] order =
        IntStream.range(0, score.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> -score[i]))
            .mapToInt(i -> i)
            .toArray();
    int found = 0;
    double sum = 0;
    int next = 0;
    while (next < order.length) {
      double level = score[order[next]];
      int gained = 0;
      while (next < order.length && score[order[next]] == level) {
        gained += faulty[order[next]] ? 1 : 0;
        next++;
      }
      found += gained;
      sum += gained * (double) found / next;
    }
    return found == 0 ? Double.NaN : sum / found;
  }

  /** How many are faulty. */
  static int count(boolean[] faulty) {
    return (int) IntStream.range(0, faulty.length).filter(i -> faulty[i]).count();
  }

  /** Lowest over highest of the last reading, low first: the rule of three quarters as a score. */
  static double fixedRule(double[] lastKpa) {
    return -Arrays.stream(lastKpa).min().orElseThrow() / Arrays.stream(lastKpa).max().orElseThrow();
  }
}

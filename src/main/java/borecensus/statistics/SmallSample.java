package borecensus.statistics;

import java.util.OptionalInt;
import org.apache.commons.math3.distribution.BinomialDistribution;

/**
 * How many values a distribution-free bound needs.
 *
 * <p>Source: Wilks (1941), Annals of Mathematical Statistics 12; Hahn and Meeker (1991),
 * <i>Statistical Intervals</i>, ch. 5. The share of a continuous population that lies below the
 * u-th smallest of n values is at least p with confidence P(B &lt;= u - 1), B binomial (n, p). With
 * tied (rounded) values the confidence is at least that.
 *
 * <p>Proportion and confidence must lie strictly between 0 and 1; else {@link
 * IllegalArgumentException}.
 */
public final class SmallSample {
  private SmallSample() {}

  /**
   * The smallest sample whose r-th largest value (or r-th smallest, for a lower bound) bounds a
   * share of the population.
   *
   * @param proportion the share to bound
   * @param confidence the confidence to reach
   * @param rank r, from 1: which extreme value is the bound
   * @return the sample size: 59 for 95 %, 95 % and the extreme itself
   */
  public static int forOneBound(double proportion, double confidence, int rank) {
    requireRank(rank);
    return smallest(proportion, confidence, rank);
  }

  /**
   * The smallest sample whose r-th smallest and r-th largest values together enclose a share of the
   * population.
   *
   * @param proportion the share to enclose
   * @param confidence the confidence to reach
   * @param rank r, from 1: which extreme values are the bounds
   * @return the sample size: 93 for 95 %, 95 % and the extremes themselves
   */
  public static int forTwoBounds(double proportion, double confidence, int rank) {
    requireRank(rank);
    return smallest(proportion, confidence, 2 * rank);
  }

  /**
   * Which order statistic is an upper bound.
   *
   * @param n the sample size, at least 1
   * @param proportion the share of the population to lie below
   * @param confidence the confidence to reach
   * @return the rank u of the bound, 1 being the smallest value; n + 1 - u is that of the lower
   *     bound. Empty when the sample is too small
   */
  public static OptionalInt upperBoundRank(int n, double proportion, double confidence) {
    requireInside("proportion", proportion);
    requireInside("confidence", confidence);
    if (n < 1) {
      throw new IllegalArgumentException("a bound needs at least 1 value, but n is " + n);
    }
    var below = new BinomialDistribution(null, n, proportion);
    int rank = below.inverseCumulativeProbability(confidence) + 1;
    return rank <= n ? OptionalInt.of(rank) : OptionalInt.empty();
  }

  /**
   * Leaving out m of the n + 1 gaps between values keeps p with P(B &lt;= n - m); Tukey's blocks.
   */
  private static int smallest(double proportion, double confidence, int blocksLeftOut) {
    requireInside("proportion", proportion);
    requireInside("confidence", confidence);
    int n = blocksLeftOut;
    while (confidence(n, proportion, blocksLeftOut) < confidence) {
      n = Math.multiplyExact(n, 2);
    }
    int tooSmall = n / 2;
    while (n - tooSmall > 1) {
      int middle = (n + tooSmall) >>> 1;
      if (confidence(middle, proportion, blocksLeftOut) < confidence) {
        tooSmall = middle;
      } else {
        n = middle;
      }
    }
    return n;
  }

  private static double confidence(int n, double proportion, int blocksLeftOut) {
    return n < blocksLeftOut
        ? 0.0
        : new BinomialDistribution(null, n, proportion).cumulativeProbability(n - blocksLeftOut);
  }

  private static void requireRank(int rank) {
    if (rank < 1) {
      throw new IllegalArgumentException("the rank of a bound counts from 1, but is " + rank);
    }
  }

  private static void requireInside(String name, double value) {
    if (!(value > 0.0 && value < 1.0)) {
      throw new IllegalArgumentException(
          name + " must be between 0 and 1, both excluded, but is " + value);
    }
  }
}

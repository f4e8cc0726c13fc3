package borecensus.statistics;

import java.io.Serializable;

/**
 * Turns posterior fault probabilities into q-values.
 *
 * <p>Source: the Bayesian false discovery rate of a marked set is the mean of its members'
 * posterior probabilities of being healthy (Newton, Noueiry, Sarkar and Ahlquist 2004,
 * Biostatistics 5, 155-176, eq. 11; Efron 2010, <i>Large-Scale Inference</i>, ch. 5). Marking
 * everything at least as probable as p:
 *
 * <pre>
 *   q(p) = mean of (1 - p_i) over all engines with p_i &gt;= p
 * </pre>
 *
 * Probabilities in one bin of {@link FalseShareCounts} count as tied, so q(p) is the exact mean
 * taken at the lowest probability in the bin of p. q never rises with p. Immutable and thread-safe.
 */
public final class FalseShareTable implements Serializable {
  private static final long serialVersionUID = 1L;

  /** q by bin; NaN above the highest bin that holds an engine. */
  private final double[] qByBin;

  private final double smallestQ;

  private FalseShareTable(double[] qByBin, double smallestQ) {
    this.qByBin = qByBin;
    this.smallestQ = smallestQ;
  }

  /**
   * The table of the engines counted so far.
   *
   * @param counts the counts of the whole fleet; not kept
   * @return the table
   * @throws ArithmeticException if more engines were counted than there is room for
   */
  public static FalseShareTable of(FalseShareCounts counts) {
    double[] qByBin = new double[FalseShareCounts.BINS];
    long engines = 0L;
    long falseUnits = 0L;
    double q = Double.NaN;
    double smallestQ = 1.0;
    for (int bin = FalseShareCounts.BINS - 1; bin >= 0; bin--) {
      if (counts.count(bin) > 0L) {
        boolean highest = engines == 0L;
        engines = Math.addExact(engines, counts.count(bin));
        falseUnits = Math.addExact(falseUnits, counts.falseUnits(bin));
        double mean = falseUnits * FalseShareCounts.UNIT / engines;
        // Rounding to units could turn the running mean down by a hair; q must not fall with p.
        q = highest ? mean : Math.max(q, mean);
        smallestQ = highest ? mean : smallestQ;
      }
      qByBin[bin] = q;
    }
    return new FalseShareTable(qByBin, smallestQ);
  }

  /**
   * The expected share of false marks if every engine at least as probable is marked.
   *
   * @param faultProbability a posterior fault probability, from 0 to 1
   * @return the q-value. Above all counted engines, and in an empty table, it is 1 - p: the share
   *     that an engine would have that stands there alone. NaN gives NaN
   * @throws IllegalArgumentException if the probability is not from 0 to 1
   */
  public double qValue(double faultProbability) {
    if (Double.isNaN(faultProbability)) {
      return Double.NaN;
    }
    if (faultProbability < 0.0 || faultProbability > 1.0) {
      throw new IllegalArgumentException(
          "a fault probability must be from 0 to 1, but is " + faultProbability);
    }
    double q = qByBin[FalseShareCounts.bin(faultProbability)];
    return Double.isNaN(q) ? Math.min(1.0 - faultProbability, smallestQ) : q;
  }

  /**
   * The lowest fault probability that is marked at this expected share of false marks. Since q
   * never rises with p, everything at least as probable is marked and nothing below it.
   *
   * @param maxFalseShare the largest q-value that is marked
   * @return a probability; infinite when not even certainty is marked
   */
  public double lowestMarked(double maxFalseShare) {
    if (qValue(1.0) > maxFalseShare) {
      return Double.POSITIVE_INFINITY;
    }
    // Doubles from 0 to 1 lie in the order of their bits, so halving these ends at the very first.
    long notMarked = -1L;
    long marked = Double.doubleToLongBits(1.0);
    while (marked - notMarked > 1) {
      long middle = (notMarked + marked) >> 1;
      if (qValue(Double.longBitsToDouble(middle)) <= maxFalseShare) {
        marked = middle;
      } else {
        notMarked = middle;
      }
    }
    return Double.longBitsToDouble(marked);
  }
}

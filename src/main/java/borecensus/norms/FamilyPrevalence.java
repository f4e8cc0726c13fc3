package borecensus.norms;

import java.util.Collection;
import org.apache.commons.math3.special.Gamma;

/**
 * How far the share of faulty engines differs between families: the number of engines that the
 * fleet's share counts for in a family's, where the marginal likelihood of the families' counts
 * (beta-binomial: Skellam, 1948, J. R. Stat. Soc. B 10:257-261; expected counts in place of counts)
 * is highest, drawn to what is believed. The number is one of a grid around the belief, so that it
 * stays within a factor of eight.
 */
final class FamilyPrevalence {
  private static final double[] MULTIPLES = {0.125, 0.25, 0.5, 1, 2, 4, 8};

  /** Standard deviation of the log of that number, as believed (common practice, no source). */
  private static final double BELIEVED_LOG_SD = 1;

  private FamilyPrevalence() {}

  /**
   * The number of engines that the fleet's share counts for.
   *
   * @param families engines and expected faulty ones of each family
   * @param fleetShare between 0 and 1
   * @param believed that number, as believed
   */
  static double pseudoEngines(Collection<double[]> families, double fleetShare, double believed) {
    double best = believed;
    double highest = Double.NEGATIVE_INFINITY;
    for (double multiple : MULTIPLES) {
      double off = Math.log(multiple) / BELIEVED_LOG_SD;
      double value = -off * off / 2;
      for (double[] family : families) {
        value += logMarginal(family, fleetShare * multiple * believed, multiple * believed);
      }
      if (value > highest) {
        highest = value;
        best = multiple * believed;
      }
    }
    return best;
  }

  /** Up to the binomial coefficient. */
  private static double logMarginal(double[] family, double faulty, double all) {
    return logBeta(faulty + family[1], all - faulty + family[0] - family[1])
        - logBeta(faulty, all - faulty);
  }

  private static double logBeta(double a, double b) {
    return Gamma.logGamma(a) + Gamma.logGamma(b) - Gamma.logGamma(a + b);
  }
}

package borecensus.norms;

import java.io.Serializable;

/**
 * How many engines a belief counts for.
 *
 * @param family the fleet's variances, in a family's own
 * @param fleet the prior variances, in the fleet's
 * @param share a prior share, in the fleet's and again in a family's
 */
public record PseudoEngines(double family, double fleet, double share) implements Serializable {

  public PseudoEngines {
    if (!(family > 0 && fleet > 0 && share > 0)) {
      throw new IllegalArgumentException("pseudo engines must be positive");
    }
  }

  /** Standard deviation of a log variance known as well as from this many engines. */
  static double logVarianceSd(double engines) {
    return Math.sqrt(2 / engines);
  }
}

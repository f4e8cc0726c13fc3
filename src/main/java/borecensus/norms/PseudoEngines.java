package borecensus.norms;

import borecensus.statistics.RandomEffects;
import java.io.Serializable;

/**
 * How many engines a belief counts for.
 *
 * @param family the fleet's variances, in a family's own, before families have shown how far they
 *     differ
 * @param families how many families that belief, and the believed spread of wear, count for
 * @param fleet the prior variances, in the fleet's
 * @param share a prior share, in the fleet's and again in a family's
 */
public record PseudoEngines(double family, double families, double fleet, double share)
    implements Serializable {

  public PseudoEngines {
    if (!(family > 0 && families > 0 && fleet > 0 && share > 0)) {
      throw new IllegalArgumentException("pseudo engines must be positive");
    }
  }

  /** Standard deviation of a log variance known as well as from this many engines. */
  static double logVarianceSd(double engines) {
    return Math.sqrt(2 / engines);
  }

  /** What is believed of the families' logs of a variance around this one. */
  RandomEffects.Beliefs logVariances(double priorLog) {
    double error = logVarianceSd(fleet);
    return new RandomEffects.Beliefs(
        new RandomEffects.Normal(priorLog, error * error), logVarianceSd(family), families);
  }

  /** What is believed of how families' wear differs from the expected wear. */
  RandomEffects.Beliefs wear(Wear expected) {
    double sd = expected.sdPctPer100kKm() / 100;
    return new RandomEffects.Beliefs(new RandomEffects.Normal(0, sd * sd), sd, families);
  }
}

package borecensus.causes;

import borecensus.domain.Cause;
import borecensus.domain.Reason;
import java.io.Serializable;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * How often each cause lies behind each pattern, as far as the fleet has shown: the declared shares
 * count as {@value #PSEUDO_FINDINGS} findings, to which confirmed ones are added (the mean of a
 * Dirichlet posterior: Gelman et al., Bayesian Data Analysis, 3rd ed., 2013, section 3.4; the
 * weight of the declared shares is a choice, no source).
 *
 * @param byPattern one entry for every pattern
 */
public record CauseTable(Map<Reason, CauseShares> byPattern) implements Serializable {

  /** How many findings the declared shares count for. */
  public static final double PSEUDO_FINDINGS = 10;

  public CauseTable {
    byPattern = Collections.unmodifiableMap(new EnumMap<>(byPattern));
  }

  /** The declared shares alone. */
  public static CauseTable declared() {
    return withFindings(Map.of());
  }

  /**
   * The declared shares with what inspections found.
   *
   * @param counts findings by pattern and cause; absent ones are none
   */
  public static CauseTable withFindings(Map<Reason, Map<Cause, Long>> counts) {
    Map<Reason, CauseShares> byPattern = new EnumMap<>(Reason.class);
    for (CausePrior prior : CausePrior.values()) {
      Map<Cause, Long> found = counts.getOrDefault(prior.pattern(), Map.of());
      Map<Cause, Double> weights = new EnumMap<>(Cause.class);
      for (Cause cause : Cause.values()) {
        weights.put(cause, PSEUDO_FINDINGS * prior.share(cause) + found.getOrDefault(cause, 0L));
      }
      byPattern.put(prior.pattern(), CauseShares.ofWeights(weights));
    }
    return new CauseTable(byPattern);
  }

  /** The shares behind one pattern. */
  public CauseShares of(Reason pattern) {
    return byPattern.get(pattern);
  }
}

package borecensus.causes;

import borecensus.domain.Cause;
import java.io.Serializable;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * How probable each cause is, given that there is one.
 *
 * @param byCause every cause, summing to one
 */
public record CauseShares(Map<Cause, Double> byCause) implements Serializable {

  public CauseShares {
    EnumMap<Cause, Double> copy = new EnumMap<>(byCause);
    double sum = copy.values().stream().mapToDouble(s -> s).sum();
    if (copy.size() != Cause.values().length || Math.abs(sum - 1) > 1e-9) {
      throw new IllegalArgumentException("shares of all causes must sum to one, not " + byCause);
    }
    byCause = Collections.unmodifiableMap(copy);
  }

  /**
   * From weights above zero, whatever they sum to.
   *
   * @throws IllegalArgumentException when a cause has no weight
   */
  static CauseShares ofWeights(Map<Cause, Double> weights) {
    double sum = weights.values().stream().mapToDouble(w -> w).sum();
    EnumMap<Cause, Double> shares = new EnumMap<>(Cause.class);
    weights.forEach((cause, weight) -> shares.put(cause, weight / sum));
    return new CauseShares(shares);
  }

  /** This cause and no other. */
  static CauseShares certain(Cause seen) {
    EnumMap<Cause, Double> shares = new EnumMap<>(Cause.class);
    for (Cause cause : Cause.values()) {
      shares.put(cause, cause == seen ? 1.0 : 0.0);
    }
    return new CauseShares(shares);
  }

  /** The shares after something was seen (Bayes' theorem). */
  public CauseShares given(CauseEvidence evidence) {
    EnumMap<Cause, Double> weights = new EnumMap<>(Cause.class);
    byCause.forEach((cause, share) -> weights.put(cause, share * evidence.likelihood(cause)));
    return ofWeights(weights);
  }

  /** All causes, most probable first, ties in the order of {@link Cause}. */
  public List<Cause> ranked() {
    return Arrays.stream(Cause.values())
        .sorted(Comparator.comparingDouble((Cause cause) -> -byCause.get(cause)))
        .toList();
  }

  /** The share of one cause. */
  public double share(Cause cause) {
    return byCause.get(cause);
  }
}

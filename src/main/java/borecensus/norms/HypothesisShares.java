package borecensus.norms;

import java.io.Serializable;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.SortedMap;

/**
 * How common each fault is.
 *
 * @param fleet share of the fleet's engines by fault
 * @param prevalenceByFamily share of engines with any mechanical fault; a family not named has the
 *     fleet's
 */
public record HypothesisShares(
    Map<Hypothesis, Double> fleet, SortedMap<String, Double> prevalenceByFamily)
    implements Serializable {

  public HypothesisShares {
    fleet = Collections.unmodifiableMap(new EnumMap<>(fleet));
    prevalenceByFamily = KeyedMap.copyOf(prevalenceByFamily);
  }

  /** Share of the fleet's engines with any mechanical fault. */
  public double fleetPrevalence() {
    double sum = 0;
    for (Hypothesis hypothesis : Hypothesis.values()) {
      sum += hypothesis.mechanical() ? fleet.get(hypothesis) : 0;
    }
    return sum;
  }

  /** Share of a family's engines with any mechanical fault. */
  public double prevalence(String familyId) {
    Double own = prevalenceByFamily.get(familyId);
    return own == null ? fleetPrevalence() : own;
  }

  /** Share of a family's engines with this fault: the fleet's mix at the family's prevalence. */
  public double share(Hypothesis hypothesis, String familyId) {
    double inFleet = fleet.get(hypothesis);
    return hypothesis.mechanical() ? inFleet * prevalence(familyId) / fleetPrevalence() : inFleet;
  }

  /** Prior probabilities by {@link Hypothesis#ordinal} for an engine with so many tests. */
  double[] priors(String familyId, int tests) {
    double[] priors = new double[Hypothesis.values().length];
    double relative = prevalence(familyId) / fleetPrevalence();
    for (Hypothesis hypothesis : Hypothesis.values()) {
      Hypothesis seen = tests == 1 ? hypothesis.seenOnce() : hypothesis;
      priors[seen.ordinal()] += fleet.get(hypothesis) * (hypothesis.mechanical() ? relative : 1);
    }
    return priors;
  }
}

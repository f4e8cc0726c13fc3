package borecensus.screening;

import borecensus.domain.Reason;
import borecensus.norms.Hypothesis;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What is probably wrong with an engine.
 *
 * @param faultProbability of any mechanical fault; for an engine that is not judged, how common
 *     faults are in its family
 * @param reasons most probable first, then the maker's limit and doubt about the measurement
 * @param suspectCylinders numbers, rising
 * @param probabilities by fault; empty for an engine that is not judged
 * @param severityPct mean loss of what is at fault, per cent, given that something is; negative
 *     when it reads high; NaN for an engine that is not judged
 */
public record Verdict(
    double faultProbability,
    List<Reason> reasons,
    List<Integer> suspectCylinders,
    Map<Hypothesis, Double> probabilities,
    double severityPct) {

  public Verdict {
    reasons = List.copyOf(reasons);
    suspectCylinders = List.copyOf(suspectCylinders);
    Map<Hypothesis, Double> copy = new EnumMap<>(Hypothesis.class);
    copy.putAll(probabilities);
    probabilities = Collections.unmodifiableMap(copy);
  }

  /** For an engine that is not judged. */
  static Verdict unjudged(double prevalence, List<Reason> reasons) {
    return new Verdict(prevalence, reasons, List.of(), Map.of(), Double.NaN);
  }
}

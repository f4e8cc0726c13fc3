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
 * @param main the most probable mechanical fault, however probable it is; null for an engine that
 *     is not judged
 * @param mainCylinders the cylinders that it speaks of; empty when it is about the whole engine
 * @param probabilities by fault; empty for an engine that is not judged
 * @param testsSinceDoubted how many trusted tests followed the one that is probably all that is
 *     off; -1 when there is none such
 * @param severityPct mean loss of what is at fault, per cent, given that something is; negative
 *     when it reads high; NaN for an engine that is not judged
 */
public record Verdict(
    double faultProbability,
    List<Reason> reasons,
    List<Integer> suspectCylinders,
    Hypothesis main,
    List<Integer> mainCylinders,
    Map<Hypothesis, Double> probabilities,
    int testsSinceDoubted,
    double severityPct) {

  public Verdict {
    reasons = List.copyOf(reasons);
    suspectCylinders = List.copyOf(suspectCylinders);
    mainCylinders = List.copyOf(mainCylinders);
    Map<Hypothesis, Double> copy = new EnumMap<>(Hypothesis.class);
    // Without the entries that a map which cannot be changed would make for each of its own.
    probabilities.forEach(copy::put);
    probabilities = Collections.unmodifiableMap(copy);
  }

  /** For an engine that is not judged. */
  static Verdict unjudged(double prevalence, List<Reason> reasons) {
    return new Verdict(
        prevalence, reasons, List.of(), null, List.of(), Map.of(), DoubtedTest.NONE, Double.NaN);
  }
}

package borecensus.norms;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * How probable each state of one engine is, given its readings and how common faults are.
 *
 * @param probabilities by fault; with {@code healthy} they sum to one
 * @param healthy neither fault nor doubtful test
 * @param cylinderProbabilities that each cylinder is at fault, cylinder 1 first, given that some
 *     cylinders are
 * @param testProbabilities that each test used, oldest first, is off as a whole, given that one is
 * @param logShift mean shift of the log reading of what is at fault, given a mechanical fault
 */
public record FaultPosterior(
    Map<Hypothesis, Double> probabilities,
    double healthy,
    List<Double> cylinderProbabilities,
    List<Double> testProbabilities,
    double logShift) {

  public FaultPosterior {
    probabilities = Collections.unmodifiableMap(new EnumMap<>(probabilities));
    cylinderProbabilities = List.copyOf(cylinderProbabilities);
    testProbabilities = List.copyOf(testProbabilities);
  }

  /** Weighs one engine. */
  public static FaultPosterior of(HealthyModel model, FamilyNorm norm, FleetNorms norms) {
    double[][] sizeWeights = norms.sizes().weights();
    FaultEvidence evidence = new FaultWeighing(model, norm, norms).evidence();
    return of(evidence, norms.faults(), sizeWeights);
  }

  /** From evidence that was weighed under the same law of sizes. */
  private static FaultPosterior of(FaultEvidence evidence, FaultLaw law, double[][] sizeWeights) {
    double[] posterior = law.weigh(evidence, sizeWeights);
    Map<Hypothesis, Double> byFault = new EnumMap<>(Hypothesis.class);
    for (Hypothesis h : Hypothesis.values()) {
      byFault.put(h, posterior[h.ordinal()]);
    }
    return new FaultPosterior(
        byFault,
        posterior[posterior.length - 1],
        cylinders(evidence, byFault),
        tests(evidence),
        shift(evidence, byFault, law.sizes()));
  }

  /** Probability of any mechanical fault. */
  public double faultProbability() {
    double sum = 0;
    for (Hypothesis h : Hypothesis.values()) {
      sum += h.mechanical() ? probabilities.get(h) : 0;
    }
    return Math.min(1, sum);
  }

  /** Probabilities from their logarithms up to a constant. */
  static double[] normalised(double[] logs) {
    double top = logs[0];
    for (double log : logs) {
      top = Math.max(top, log);
    }
    double[] p = new double[logs.length];
    double sum = 0;
    for (int i = 0; i < p.length; i++) {
      p[i] = Math.exp(logs[i] - top);
      sum += p[i];
    }
    for (int i = 0; i < p.length; i++) {
      p[i] /= sum;
    }
    return p;
  }

  private static List<Double> cylinders(FaultEvidence evidence, Map<Hypothesis, Double> byFault) {
    double[] struck = evidence.sums().get(0).cylinderProbabilities();
    double[] sums = new double[struck.length];
    double whole = 0;
    for (Hypothesis h : Hypothesis.values()) {
      if (h.ofSomeCylinders()) {
        double[] given = evidence.sums().get(h.ordinal()).cylinderProbabilities();
        for (int c = 0; c < sums.length; c++) {
          sums[c] += byFault.get(h) * given[c];
        }
        whole += byFault.get(h);
      }
    }
    List<Double> probabilities = new ArrayList<>(sums.length);
    for (double sum : sums) {
      probabilities.add(whole > 0 ? sum / whole : 0);
    }
    return probabilities;
  }

  private static List<Double> tests(FaultEvidence evidence) {
    RatioSum doubtful = evidence.sums().get(Hypothesis.DOUBTFUL_TEST.ordinal());
    double[] byTest = doubtful.cylinderProbabilities();
    List<Double> probabilities = new ArrayList<>(byTest.length);
    for (double probability : byTest) {
      probabilities.add(probability);
    }
    return probabilities;
  }

  private static double shift(
      FaultEvidence evidence, Map<Hypothesis, Double> byFault, FaultSizes sizes) {
    double sum = 0;
    double whole = 0;
    for (Hypothesis h : Hypothesis.values()) {
      if (h.mechanical()) {
        double[] shifts = sizes.of(h).shifts();
        sum += byFault.get(h) * evidence.sums().get(h.ordinal()).meanShift(shifts);
        whole += byFault.get(h);
      }
    }
    return whole > 0 ? sum / whole : 0;
  }
}

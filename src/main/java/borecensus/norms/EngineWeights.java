package borecensus.norms;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * How far each feeding engine counts, by family and in the order of its feeders.
 *
 * @param byFamily one entry for every family
 */
record EngineWeights(SortedMap<String, List<Weight>> byFamily) {

  /**
   * The weights of one engine.
   *
   * @param mean for means: probability of no mechanical fault
   * @param level for variances of levels: probability of neither fault nor doubtful test nor a wide
   *     engine offset
   * @param spread for variances between cylinders: probability of neither fault nor doubtful test
   *     nor a wide cylinder; wide tests and readings stay in, as part of their variance
   */
  record Weight(double mean, double level, double spread) {}

  static EngineWeights equal(SortedMap<String, FamilySample> samples) {
    SortedMap<String, List<Weight>> ones = new TreeMap<>();
    samples.forEach(
        (id, sample) ->
            ones.put(id, sample.feeders().stream().map(f -> new Weight(1, 1, 1)).toList()));
    return new EngineWeights(ones);
  }

  /** From the evidence of all engines of all families with feeders, in order. */
  static EngineWeights of(
      SortedMap<String, FamilySample> samples, List<FaultEvidence> evidence, FleetNorms norms) {
    SortedMap<String, List<Weight>> byFamily = new TreeMap<>();
    double[][] sizes = norms.faults().sizes().weights();
    int first = 0;
    for (var entry : samples.entrySet()) {
      FamilySample sample = entry.getValue();
      List<Weight> weights = new ArrayList<>();
      for (FamilySample.Feeder feeder : sample.feeders()) {
        weights.add(weight(evidence.get(first + feeder.index()), norms, sizes));
      }
      first += weights.isEmpty() ? 0 : sample.engines().size();
      byFamily.put(entry.getKey(), weights);
    }
    return new EngineWeights(byFamily);
  }

  private static Weight weight(FaultEvidence evidence, FleetNorms norms, double[][] sizes) {
    double[] posterior = norms.faults().weigh(evidence, sizes);
    Tails shares = norms.tails();
    TailRatios tails = evidence.tails();
    double usualCylinders = 1;
    for (TailColumn cylinder : tails.cylinders()) {
      usualCylinders *= 1 - cylinder.lasting().probability(shares.cylinder());
    }
    double usualEngine = 1 - tails.whole().lasting().probability(shares.engine());
    double healthy = posterior[posterior.length - 1];
    double noFault = healthy + posterior[Hypothesis.DOUBTFUL_TEST.ordinal()];
    return new Weight(noFault, healthy * usualEngine, healthy * usualCylinders);
  }

  List<Weight> of(String familyId) {
    return byFamily.get(familyId);
  }

  double[] means(String familyId) {
    return byFamily.get(familyId).stream().mapToDouble(Weight::mean).toArray();
  }
}

package borecensus.norms;

import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * How far each feeding engine counts, by family and in the order of its feeders.
 *
 * @param mechanicalByFamily probability of no mechanical fault, for means
 * @param healthyByFamily probability of neither fault nor doubtful test, for variances
 */
record EngineWeights(
    SortedMap<String, double[]> mechanicalByFamily, SortedMap<String, double[]> healthyByFamily) {

  static EngineWeights equal(SortedMap<String, FamilySample> samples) {
    SortedMap<String, double[]> ones = new TreeMap<>();
    samples.forEach(
        (id, sample) -> {
          double[] weights = new double[sample.feeders().size()];
          Arrays.fill(weights, 1);
          ones.put(id, weights);
        });
    return new EngineWeights(ones, ones);
  }

  /** From the evidence of all engines of all families with feeders, in order. */
  static EngineWeights of(
      SortedMap<String, FamilySample> samples,
      List<FaultEvidence> evidence,
      HypothesisShares shares) {
    SortedMap<String, double[]> mechanical = new TreeMap<>();
    SortedMap<String, double[]> healthy = new TreeMap<>();
    int first = 0;
    for (var entry : samples.entrySet()) {
      FamilySample sample = entry.getValue();
      int feeders = sample.feeders().size();
      double[] sound = new double[feeders];
      double[] clean = new double[feeders];
      for (int i = 0; i < feeders; i++) {
        FaultEvidence engine = evidence.get(first + sample.feeders().get(i).index());
        FaultPosterior posterior = FaultPosterior.of(engine, shares);
        sound[i] = 1 - posterior.faultProbability();
        clean[i] = posterior.healthy();
      }
      first += feeders == 0 ? 0 : sample.engines().size();
      mechanical.put(entry.getKey(), sound);
      healthy.put(entry.getKey(), clean);
    }
    return new EngineWeights(mechanical, healthy);
  }

  double[] mechanical(String familyId) {
    return mechanicalByFamily.get(familyId);
  }

  double[] healthy(String familyId) {
    return healthyByFamily.get(familyId);
  }
}

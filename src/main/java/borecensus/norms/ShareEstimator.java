package borecensus.norms;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Learns how common each fault is from the likelihood ratios of all engines: empirical Bayes by
 * expectation and maximisation (Dempster, Laird and Rubin, 1977, section 4.3), the prior shares
 * standing for as many engines as they are said to. A family's prevalence is drawn to the fleet's
 * as far as families are found to be alike ({@link FamilyPrevalence}).
 */
final class ShareEstimator {
  private static final int ITERATIONS = 40;

  private final List<FaultEvidence> engines;
  private final Map<Hypothesis, Double> priorShares;
  private final double pseudoEngines;

  ShareEstimator(
      List<FaultEvidence> engines, Map<Hypothesis, Double> priorShares, double pseudoEngines) {
    this.engines = engines;
    this.priorShares = priorShares;
    this.pseudoEngines = pseudoEngines;
  }

  HypothesisShares estimate(HypothesisShares start) {
    double[][] logRatios = engines.stream().map(ShareEstimator::logRatios).toArray(double[][]::new);
    HypothesisShares shares = start;
    for (int i = 0; i < ITERATIONS; i++) {
      shares = step(shares, logRatios);
    }
    return shares;
  }

  private static double[] logRatios(FaultEvidence engine) {
    return Arrays.stream(Hypothesis.values()).mapToDouble(engine::logRatio).toArray();
  }

  private HypothesisShares step(HypothesisShares shares, double[][] logRatios) {
    double[] counts = new double[Hypothesis.values().length];
    SortedMap<String, double[]> families = new TreeMap<>();
    for (int i = 0; i < logRatios.length; i++) {
      FaultEvidence engine = engines.get(i);
      double[] p = posterior(shares, engine, logRatios[i]);
      double[] family = families.computeIfAbsent(engine.familyId(), f -> new double[2]);
      family[0]++;
      for (Hypothesis h : Hypothesis.values()) {
        counts[h.ordinal()] += p[h.ordinal()];
        family[1] += h.mechanical() ? p[h.ordinal()] : 0;
      }
    }
    return shares(counts, families);
  }

  /** With one test a fall cannot be told from what it leads to: the shares divide it. */
  private static double[] posterior(
      HypothesisShares shares, FaultEvidence engine, double[] logRatios) {
    double[] priors = shares.priors(engine.familyId(), engine.tests());
    double[] logs = new double[priors.length + 1];
    logs[priors.length] = Math.log(1 - Arrays.stream(priors).sum());
    for (int h = 0; h < priors.length; h++) {
      logs[h] = Math.log(priors[h]) + logRatios[h];
    }
    double[] p = FaultPosterior.normalised(logs);
    return engine.tests() == 1 ? divided(p, shares) : p;
  }

  private static double[] divided(double[] p, HypothesisShares shares) {
    double[] divided = p.clone();
    for (Hypothesis h : Hypothesis.values()) {
      Hypothesis seen = h.seenOnce();
      if (seen != h) {
        double own = shares.fleet().get(h);
        double part = own / (own + shares.fleet().get(seen));
        divided[h.ordinal()] = p[seen.ordinal()] * part;
        divided[seen.ordinal()] = p[seen.ordinal()] * (1 - part);
      }
    }
    return divided;
  }

  private HypothesisShares shares(double[] counts, SortedMap<String, double[]> families) {
    Map<Hypothesis, Double> fleet = new EnumMap<>(Hypothesis.class);
    for (Hypothesis h : Hypothesis.values()) {
      double believed = pseudoEngines * priorShares.get(h);
      fleet.put(h, (counts[h.ordinal()] + believed) / (engines.size() + pseudoEngines));
    }
    double prevalence = new HypothesisShares(fleet, new TreeMap<>()).fleetPrevalence();
    double pseudo = FamilyPrevalence.pseudoEngines(families.values(), prevalence, pseudoEngines);
    SortedMap<String, Double> byFamily = new TreeMap<>();
    families.forEach(
        (id, family) -> byFamily.put(id, (family[1] + pseudo * prevalence) / (family[0] + pseudo)));
    return new HypothesisShares(fleet, byFamily);
  }
}

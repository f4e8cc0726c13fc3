package borecensus.norms;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Learns how common each fault is, and how large, from the likelihood ratios of all engines:
 * empirical Bayes by expectation and maximisation (Dempster, Laird and Rubin, 1977, section 4.3),
 * the prior shares standing for as many engines as they are said to. A family's prevalence is drawn
 * to the fleet's as far as families are found to be alike ({@link FamilyPrevalence}); sizes are the
 * whole fleet's ({@link SizeLawFit}).
 */
final class FaultLawEstimator {
  private static final int ITERATIONS = 40;

  private final List<EvidenceOdds> engines;
  private final Map<Hypothesis, Double> priorShares;
  private final double pseudoEngines;
  private final FaultSizes believed;

  FaultLawEstimator(List<FaultEvidence> engines, FuelPriors priors) {
    this.engines = engines.stream().map(EvidenceOdds::of).toList();
    this.priorShares = priors.shares();
    this.pseudoEngines = priors.pseudoEngines().share();
    this.believed = FaultSizes.believed(priors);
  }

  FaultLaw estimate(FaultLaw start) {
    FaultLaw law = start;
    for (int i = 0; i < ITERATIONS; i++) {
      law = step(law);
    }
    return law;
  }

  private FaultLaw step(FaultLaw law) {
    double[][] sizeWeights = law.sizes().weights();
    double[] counts = new double[Hypothesis.values().length];
    Map<SizeKind, double[]> bySize = new EnumMap<>(SizeKind.class);
    believed.byKind().forEach((kind, grid) -> bySize.put(kind, new double[grid.points()]));
    SortedMap<String, double[]> families = new TreeMap<>();
    double[][] found = found(bySize);
    PriorsOf priors = new PriorsOf(law.shares());
    for (EvidenceOdds odds : engines) {
      FaultEvidence engine = odds.evidence();
      double[] sums = odds.sums(sizeWeights);
      double[] seen = odds.weigh(priors.of(engine), sums);
      double[] p = engine.tests() == 1 ? divided(seen, law.shares()) : seen;
      double[] family = families.computeIfAbsent(engine.familyId(), f -> new double[2]);
      family[0]++;
      for (int h = 0; h < p.length; h++) {
        counts[h] += p[h];
        if (found[h] != null) {
          family[1] += p[h];
          engine.sums().get(h).countSizes(seen[h], sizeWeights[h], sums[h], found[h]);
        }
      }
    }
    return new FaultLaw(shares(counts, families), sizes(bySize));
  }

  /** Where sizes are counted, by {@link Hypothesis#ordinal}; null for a test that is off. */
  private static double[][] found(Map<SizeKind, double[]> bySize) {
    double[][] found = new double[Hypothesis.values().length][];
    for (Hypothesis h : Hypothesis.values()) {
      found[h.ordinal()] = h.mechanical() ? bySize.get(SizeKind.of(h)) : null;
    }
    return found;
  }

  /** Prior probabilities, which engines of one family and one kind of history share. */
  private static final class PriorsOf {
    private final HypothesisShares shares;
    private final Map<String, double[]> ofOneTest = new HashMap<>();
    private final Map<String, double[]> ofMore = new HashMap<>();

    PriorsOf(HypothesisShares shares) {
      this.shares = shares;
    }

    double[] of(FaultEvidence engine) {
      return (engine.tests() == 1 ? ofOneTest : ofMore)
          .computeIfAbsent(engine.familyId(), family -> shares.priors(family, engine.tests()));
    }
  }

  private FaultSizes sizes(Map<SizeKind, double[]> found) {
    Map<SizeKind, SeverityGrid> laws = new EnumMap<>(believed.byKind());
    laws.replaceAll((kind, grid) -> SizeLawFit.fit(grid, found.get(kind)));
    return new FaultSizes(laws);
  }

  /** With one test a fall cannot be told from what it leads to: the shares divide it. */
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

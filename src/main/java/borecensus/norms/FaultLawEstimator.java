package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * Learns how common each fault is, and how large, from the likelihood ratios of all engines:
 * empirical Bayes by expectation and maximisation (Dempster, Laird and Rubin, 1977, section 4.3),
 * the prior shares standing for as many engines as they are said to. A family's prevalence is drawn
 * to the fleet's as far as families are found to be alike ({@link FamilyPrevalence}); sizes are the
 * whole fleet's ({@link SizeLawFit}).
 */
final class FaultLawEstimator {
  private static final int ITERATIONS = 40;

  /** So many engines are weighed at a time: few enough that their numbers stay in the cache. */
  private static final int BLOCK = 256;

  private final EvidenceGroups groups;
  private final List<EvidenceBlock> blocks;
  private final Map<Hypothesis, Double> priorShares;
  private final double pseudoEngines;
  private final FaultSizes believed;

  FaultLawEstimator(List<FaultEvidence> engines, FuelPriors priors) {
    this.groups = EvidenceGroups.of(engines);
    this.blocks =
        IntStream.range(0, (engines.size() + BLOCK - 1) / BLOCK)
            .parallel()
            .mapToObj(b -> block(engines, b * BLOCK))
            .toList();
    this.priorShares = priors.shares();
    this.pseudoEngines = priors.pseudoEngines().share();
    this.believed = FaultSizes.believed(priors);
  }

  private EvidenceBlock block(List<FaultEvidence> engines, int from) {
    int to = Math.min(from + BLOCK, engines.size());
    int[] ofBlock = Arrays.copyOfRange(groups.byEngine(), from, to);
    return EvidenceBlock.of(engines.subList(from, to), ofBlock);
  }

  FaultLaw estimate(FaultLaw start) {
    FaultLaw law = start;
    for (int i = 0; i < ITERATIONS; i++) {
      law = step(law);
    }
    return law;
  }

  /** Blocks are weighed on all cores and summed up in their order. */
  private FaultLaw step(FaultLaw law) {
    double[][] priors = groups.priors(law.shares());
    double[][] sizeWeights = law.sizes().weights();
    List<EvidenceBlock.Counts> counts =
        blocks.parallelStream().map(b -> b.weigh(priors, sizeWeights)).toList();
    double[][] faults = Zeros.of(priors.length, Hypothesis.values().length);
    Map<SizeKind, double[]> found = new EnumMap<>(SizeKind.class);
    believed.byKind().forEach((kind, grid) -> found.put(kind, new double[grid.points()]));
    for (int b = 0; b < counts.size(); b++) {
      int[] met = blocks.get(b).groups();
      for (int g = 0; g < met.length; g++) {
        add(counts.get(b).faults()[g], faults[met[g]]);
      }
      for (Hypothesis h : Hypothesis.values()) {
        if (h.mechanical()) {
          add(counts.get(b).sizes()[h.ordinal()], found.get(SizeKind.of(h)));
        }
      }
    }
    return new FaultLaw(shares(faults, law.shares()), sizes(found));
  }

  private static void add(double[] counts, double[] sums) {
    for (int i = 0; i < sums.length; i++) {
      sums[i] += counts[i];
    }
  }

  private FaultSizes sizes(Map<SizeKind, double[]> found) {
    Map<SizeKind, SeverityGrid> laws = new EnumMap<>(believed.byKind());
    laws.replaceAll((kind, grid) -> SizeLawFit.fit(grid, found.get(kind)));
    return new FaultSizes(laws);
  }

  /** With one test a fall cannot be told from what it leads to: the shares divide it. */
  private static double[] divided(double[] counts, HypothesisShares shares) {
    double[] divided = counts.clone();
    for (Hypothesis h : Hypothesis.values()) {
      Hypothesis seen = h.seenOnce();
      if (seen != h) {
        double own = shares.fleet().get(h);
        double part = own / (own + shares.fleet().get(seen));
        divided[h.ordinal()] = counts[seen.ordinal()] * part;
        divided[seen.ordinal()] = counts[seen.ordinal()] * (1 - part);
      }
    }
    return divided;
  }

  private static double mechanical(double[] counts) {
    double sum = 0;
    for (Hypothesis h : Hypothesis.values()) {
      sum += h.mechanical() ? counts[h.ordinal()] : 0;
    }
    return sum;
  }

  /**
   * New shares.
   *
   * @param faults by group and {@link Hypothesis#ordinal}, how many engines have each fault
   */
  private HypothesisShares shares(double[][] faults, HypothesisShares present) {
    double[] counts = new double[Hypothesis.values().length];
    List<double[]> families = new ArrayList<>();
    for (int f = 0; f < groups.familyIds().size(); f++) {
      double[] ofFamily = divided(faults[2 * f], present);
      add(faults[2 * f + 1], ofFamily);
      add(ofFamily, counts);
      double faulty = mechanical(ofFamily);
      families.add(new double[] {groups.engines()[2 * f] + groups.engines()[2 * f + 1], faulty});
    }
    Map<Hypothesis, Double> fleet = new EnumMap<>(Hypothesis.class);
    for (Hypothesis h : Hypothesis.values()) {
      double believedCount = pseudoEngines * priorShares.get(h);
      double engines = groups.byEngine().length + pseudoEngines;
      fleet.put(h, (counts[h.ordinal()] + believedCount) / engines);
    }
    double prevalence = new HypothesisShares(fleet, new TreeMap<>()).fleetPrevalence();
    double pseudo = FamilyPrevalence.pseudoEngines(families, prevalence, pseudoEngines);
    SortedMap<String, Double> byFamily = new TreeMap<>();
    for (int f = 0; f < families.size(); f++) {
      double[] family = families.get(f);
      double share = (family[1] + pseudo * prevalence) / (family[0] + pseudo);
      byFamily.put(groups.familyIds().get(f), share);
    }
    return new HypothesisShares(fleet, byFamily);
  }
}

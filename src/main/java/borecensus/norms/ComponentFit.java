package borecensus.norms;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * Variance components of every family: first one set for the whole fleet, drawn to the priors, then
 * each family's own, drawn to families alike and the fleet as far as families are found to be
 * alike; the variance of slopes is the fleet's for all.
 */
final class ComponentFit {
  private static final int FLEET_STEPS = 12;

  /** How far families differ in a log variance: the slopes' is taken to be all but the same. */
  private static final double[] SHARED_SLOPE = {Double.NaN, 0.01, Double.NaN};

  private static final double[] NONE_SHARED = {Double.NaN, Double.NaN};

  private final SortedMap<String, List<ComponentItem>> levels = new TreeMap<>();
  private final SortedMap<String, List<ComponentItem>> spreads = new TreeMap<>();

  /** Adds the engines of one family, worked on all cores and kept in their order. */
  void addFamily(
      List<EngineResiduals> models,
      FamilyNorm norm,
      FleetNorms norms,
      List<EngineWeights.Weight> weights) {
    String familyId = norm.family().familyId();
    levels.put(
        familyId,
        IntStream.range(0, models.size())
            .parallel()
            .mapToObj(
                i -> ComponentItems.levels(models.get(i), norm, norms, weights.get(i).level()))
            .toList());
    spreads.put(
        familyId,
        IntStream.range(0, models.size())
            .parallel()
            .mapToObj(i -> ComponentItems.spreads(models.get(i), weights.get(i).spread()))
            .toList());
  }

  /** The families' new components; the believed ones for a family without engines: the fleet's. */
  SortedMap<String, VarianceComponents> fit(
      SortedMap<String, FamilyNorm> families, FuelPriors common) {
    VarianceComponents prior = common.spreads();
    double[] levelPrior = {prior.engine(), prior.slope(), prior.test()};
    double[] spreadPrior = {prior.cylinder(), prior.reading()};
    SortedMap<String, double[]> level =
        hierarchy(levels, families, common)
            .fit(levelPrior, fleet(levels, levelPrior, common), SHARED_SLOPE);
    SortedMap<String, double[]> spread =
        hierarchy(spreads, families, common)
            .fit(spreadPrior, fleet(spreads, spreadPrior, common), NONE_SHARED);
    SortedMap<String, VarianceComponents> fitted = new TreeMap<>();
    for (String familyId : families.keySet()) {
      double[] l = level.get(familyId);
      double[] s = spread.get(familyId);
      fitted.put(familyId, new VarianceComponents(l[0], l[1], s[0], l[2], s[1]));
    }
    return fitted;
  }

  /** Variances of all engines together, drawn to the priors. */
  private static double[] fleet(
      Map<String, List<ComponentItem>> items, double[] prior, FuelPriors common) {
    double[] sd = new double[prior.length];
    Arrays.fill(sd, PseudoEngines.logVarianceSd(common.pseudoEngines().fleet()));
    return new ComponentScoring(prior, sd).fit(all(items), prior, FLEET_STEPS);
  }

  private static ComponentHierarchy hierarchy(
      SortedMap<String, List<ComponentItem>> items,
      SortedMap<String, FamilyNorm> families,
      FuelPriors common) {
    SortedMap<String, String> groups = new TreeMap<>();
    families.forEach((id, norm) -> groups.put(id, FamilyGroup.of(norm.family())));
    return new ComponentHierarchy(items, groups, common.pseudoEngines());
  }

  private static List<ComponentItem> all(Map<String, List<ComponentItem>> byFamily) {
    return byFamily.values().stream().flatMap(List::stream).toList();
  }
}

package borecensus.norms;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Variance components of every family: first one set for the whole fleet, drawn to the priors, then
 * each family's own, drawn to the fleet's; the variance of slopes is the fleet's for all.
 */
final class ComponentFit {
  private static final int FLEET_STEPS = 12;
  private static final int FAMILY_STEPS = 6;

  /** Standard deviation of the log of a variance that families are taken to share. */
  private static final double SHARED = 0.01;

  private final SortedMap<String, List<ComponentItem>> levels = new TreeMap<>();
  private final SortedMap<String, List<ComponentItem>> spreads = new TreeMap<>();

  void addEngine(
      HealthyModel model, FamilyNorm norm, FleetNorms norms, EngineWeights.Weight weight) {
    String familyId = norm.family().familyId();
    levels
        .computeIfAbsent(familyId, f -> new ArrayList<>())
        .add(ComponentItems.levels(model, norm, norms, weight.level()));
    spreads
        .computeIfAbsent(familyId, f -> new ArrayList<>())
        .add(ComponentItems.spreads(model, weight.spread()));
  }

  /** The families' new components; the believed ones for a family without engines: the fleet's. */
  SortedMap<String, VarianceComponents> fit(
      SortedMap<String, FamilyNorm> families, FuelPriors common) {
    VarianceComponents prior = common.spreads();
    PseudoEngines pseudo = common.pseudoEngines();
    double fleetSd = PseudoEngines.logVarianceSd(pseudo.fleet());
    double familySd = PseudoEngines.logVarianceSd(pseudo.family());
    double[] levelPrior = {prior.engine(), prior.slope(), prior.test()};
    double[] spreadPrior = {prior.cylinder(), prior.reading()};
    double[] level =
        new ComponentScoring(levelPrior, new double[] {fleetSd, fleetSd, fleetSd})
            .fit(all(levels), levelPrior, FLEET_STEPS);
    double[] spread =
        new ComponentScoring(spreadPrior, new double[] {fleetSd, fleetSd})
            .fit(all(spreads), spreadPrior, FLEET_STEPS);
    ComponentScoring familyLevel =
        new ComponentScoring(level, new double[] {familySd, SHARED, familySd});
    ComponentScoring familySpread = new ComponentScoring(spread, new double[] {familySd, familySd});
    SortedMap<String, VarianceComponents> fitted = new TreeMap<>();
    for (String familyId : families.keySet()) {
      double[] l = familyLevel.fit(of(levels, familyId), level, FAMILY_STEPS);
      double[] s = familySpread.fit(of(spreads, familyId), spread, FAMILY_STEPS);
      fitted.put(familyId, new VarianceComponents(l[0], l[1], s[0], l[2], s[1]));
    }
    return fitted;
  }

  private static List<ComponentItem> all(Map<String, List<ComponentItem>> byFamily) {
    return byFamily.values().stream().flatMap(List::stream).toList();
  }

  private static List<ComponentItem> of(
      Map<String, List<ComponentItem>> byFamily, String familyId) {
    return byFamily.getOrDefault(familyId, List.of());
  }
}

package borecensus.norms;

import borecensus.statistics.RandomEffects;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * Log variances of all families together: each family's own likelihood, drawn to families alike and
 * to the fleet as far as families are found to be alike. What a family's data say of a variance is
 * its approximate posterior less its prior; how far families differ follows from all of those
 * ({@link RandomEffects}), and is the next prior.
 */
final class ComponentHierarchy {
  private static final int PASSES = 3;
  private static final int STEPS = 6;

  private final SortedMap<String, List<ComponentItem>> items;
  private final SortedMap<String, String> groups;
  private final PseudoEngines pseudo;

  /**
   * @param items what engines say, by family
   * @param groups of families alike, by family; every family has one
   */
  ComponentHierarchy(
      SortedMap<String, List<ComponentItem>> items,
      SortedMap<String, String> groups,
      PseudoEngines pseudo) {
    this.items = items;
    this.groups = groups;
    this.pseudo = pseudo;
  }

  /**
   * What is believed of one family.
   *
   * @param logs expected log variances
   * @param sd standard deviations of those
   */
  private record Belief(double[] logs, double[] sd) {

    RandomEffects.Normal of(int k) {
      return new RandomEffects.Normal(logs[k], sd[k] * sd[k]);
    }
  }

  /**
   * The variances of every family.
   *
   * @param prior variances believed
   * @param fleet variances of all engines together
   * @param shared standard deviation of the log of each variance between families where it is not
   *     to be learned; NaN where it is
   */
  SortedMap<String, double[]> fit(double[] prior, double[] fleet, double[] shared) {
    double familySd = PseudoEngines.logVarianceSd(pseudo.family());
    double[] fleetLogs = Arrays.stream(fleet).map(Math::log).toArray();
    double[] sd = Arrays.stream(shared).map(s -> Double.isNaN(s) ? familySd : s).toArray();
    SortedMap<String, Belief> beliefs = new TreeMap<>();
    groups.keySet().forEach(id -> beliefs.put(id, new Belief(fleetLogs, sd)));
    SortedMap<String, ComponentScoring.Estimate> estimates = estimates(beliefs, id -> fleetLogs);
    for (int pass = 0; pass < PASSES; pass++) {
      for (int k = 0; k < shared.length; k++) {
        if (Double.isNaN(shared[k])) {
          learn(k, Math.log(prior[k]), beliefs, estimates);
        }
      }
      SortedMap<String, ComponentScoring.Estimate> present = estimates;
      estimates = estimates(beliefs, id -> present.get(id).logs());
    }
    SortedMap<String, double[]> variances = new TreeMap<>();
    estimates.forEach((id, e) -> variances.put(id, e.variances()));
    return variances;
  }

  /** Families are worked on all cores; the order is that of their names. */
  private SortedMap<String, ComponentScoring.Estimate> estimates(
      SortedMap<String, Belief> beliefs, Function<String, double[]> start) {
    List<String> ids = List.copyOf(beliefs.keySet());
    List<ComponentScoring.Estimate> found =
        ids.parallelStream().map(id -> estimate(id, beliefs.get(id), start.apply(id))).toList();
    SortedMap<String, ComponentScoring.Estimate> estimates = new TreeMap<>();
    for (int f = 0; f < ids.size(); f++) {
      estimates.put(ids.get(f), found.get(f));
    }
    return estimates;
  }

  private ComponentScoring.Estimate estimate(String familyId, Belief belief, double[] start) {
    return ComponentScoring.ofLogs(belief.logs(), belief.sd())
        .estimate(items.getOrDefault(familyId, List.of()), start, STEPS);
  }

  /** Replaces what is believed of this variance by what all families show together. */
  private void learn(
      int k,
      double priorLog,
      SortedMap<String, Belief> beliefs,
      SortedMap<String, ComponentScoring.Estimate> estimates) {
    List<RandomEffects.Shown> shown = new ArrayList<>();
    estimates.forEach(
        (id, e) ->
            shown.add(
                RandomEffects.Shown.without(
                    beliefs.get(id).of(k),
                    new RandomEffects.Normal(e.logs()[k], e.covariance()[k][k]),
                    groups.get(id))));
    RandomEffects effects = RandomEffects.fit(shown, pseudo.logVariances(priorLog));
    beliefs.replaceAll(
        (id, belief) -> {
          double[] logs = belief.logs().clone();
          double[] sd = belief.sd().clone();
          logs[k] = effects.centre(groups.get(id));
          sd[k] = effects.unitSd();
          return new Belief(logs, sd);
        });
  }
}

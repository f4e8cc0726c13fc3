package borecensus.domain;

import java.io.Serializable;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The fleet's own costs, if it tells them.
 *
 * @param byFamily by family_id, or {@link #ANY} for every family that has no row of its own
 */
public record FleetCosts(SortedMap<String, FamilyCost> byFamily) implements Serializable {

  /** The family_id that stands for every other family. */
  public static final String ANY = "*";

  /** The fleet tells no costs: all families weigh alike. */
  public static final FleetCosts NONE = new FleetCosts(new TreeMap<>());

  public FleetCosts {
    byFamily = Collections.unmodifiableSortedMap(new TreeMap<>(byFamily));
  }

  /** The costs of one family; empty when the fleet tells none. */
  public Optional<FamilyCost> of(String familyId) {
    return Optional.ofNullable(byFamily.getOrDefault(familyId, byFamily.get(ANY)));
  }

  /**
   * How much a family weighs: what a failure costs over what an inspection costs, as a share of the
   * highest such ratio that the fleet states. So inspections are ranked by what they save for what
   * they cost. One when the fleet tells no costs.
   */
  public double weight(String familyId) {
    double highest =
        byFamily.values().stream().mapToDouble(FamilyCost::ratio).max().orElse(Double.NaN);
    return of(familyId).map(cost -> cost.ratio() / highest).orElse(1.0);
  }

  /** Names the first of these families of which nothing is said. */
  public Optional<String> firstWithout(Map<String, Family> families) {
    return families.keySet().stream().sorted().filter(id -> of(id).isEmpty()).findFirst();
  }
}

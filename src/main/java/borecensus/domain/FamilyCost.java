package borecensus.domain;

import java.io.Serializable;

/**
 * What an engine of a family costs the fleet, in the fleet's own money.
 *
 * @param failureCost of an engine that fails on the road; above zero
 * @param inspectionCost of looking for the cause of a mark; above zero
 */
public record FamilyCost(double failureCost, double inspectionCost) implements Serializable {
  public FamilyCost {
    if (!(failureCost > 0 && inspectionCost > 0)) {
      throw new IllegalArgumentException("costs must be above zero");
    }
  }

  /** What a failure costs for every unit that an inspection costs. */
  double ratio() {
    return failureCost / inspectionCost;
  }
}

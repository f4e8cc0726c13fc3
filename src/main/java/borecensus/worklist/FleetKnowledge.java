package borecensus.worklist;

import borecensus.causes.CauseTable;
import borecensus.domain.FleetCosts;
import borecensus.norms.FleetNorms;
import java.io.Serializable;

/**
 * What the fleet has taught of its engines, as far as the work list draws on it.
 *
 * @param causes what lies behind each pattern
 * @param costs what failures and inspections cost the fleet
 */
public record FleetKnowledge(FleetNorms norms, CauseTable causes, FleetCosts costs)
    implements Serializable {

  /** The norms, and nothing but what is declared besides. */
  public static FleetKnowledge of(FleetNorms norms) {
    return new FleetKnowledge(norms, CauseTable.declared(), FleetCosts.NONE);
  }
}

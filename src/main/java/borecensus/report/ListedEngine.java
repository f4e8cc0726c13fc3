package borecensus.report;

import borecensus.worklist.WorkListEntry;
import java.io.Serializable;
import java.util.List;

/**
 * One marked engine as the lists show it.
 *
 * @param deviationPct of the last trusted test by cylinder, cylinder 1 first: 100 x (reading /
 *     expected - 1); NaN where not read; empty when there is nothing to draw
 * @param qValue expected share of sound engines among it and all more probable ones
 * @param figures of its last trusted test
 * @param change of its mark since the night before
 */
public record ListedEngine(
    WorkListEntry entry,
    List<Double> deviationPct,
    double qValue,
    LastFigures figures,
    MarkChange change)
    implements Serializable {

  public ListedEngine {
    deviationPct = List.copyOf(deviationPct);
  }

  /** Its page, from the report's folder. */
  String page() {
    return PageNames.engine(entry.vehicleId(), entry.engineId());
  }
}

package borecensus.night;

import borecensus.report.ListedEngine;
import borecensus.report.MarkChange;
import borecensus.report.ReportLimits;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;

/**
 * The marks of two nights compared: how many engines there are of each kind, and as many of them as
 * a report shows, whatever the fleet.
 *
 * @param listed the first engines of the ranked list, as many as have a page
 * @param counts all ranked engines by what became of their marks
 * @param fresh the first newly marked ones, by rank
 * @param worse the first of those that are worse, by rank
 * @param cleared the first of those that were marked and are not any more, most probable first
 * @param clearedInAll how many there are of these
 */
record MarkComparison(
    List<ListedEngine> listed,
    Map<MarkChange, Long> counts,
    List<ListedEngine> fresh,
    List<ListedEngine> worse,
    List<MarkedBefore> cleared,
    long clearedInAll)
    implements Serializable {

  MarkComparison {
    listed = List.copyOf(listed);
    counts = Map.copyOf(counts);
    fresh = List.copyOf(fresh);
    worse = List.copyOf(worse);
    cleared = List.copyOf(cleared);
  }

  /**
   * Compares the engines marked on the night before, in any order, with the ranked ones. Holds the
   * former in memory, one small record for each.
   */
  static MarkComparison of(Iterator<MarkedBefore> before, Iterator<? extends RankedEngine> ranked) {
    Map<EngineName, MarkedBefore> gone = new HashMap<>();
    before.forEachRemaining(marked -> gone.put(marked.name(), marked));
    Map<MarkChange, Long> counts = new EnumMap<>(MarkChange.class);
    Map<MarkChange, List<ListedEngine>> first = new EnumMap<>(MarkChange.class);
    for (MarkChange change : MarkChange.values()) {
      first.put(change, new ArrayList<>());
    }
    List<ListedEngine> listed = new ArrayList<>();
    while (ranked.hasNext()) {
      RankedEngine engine = ranked.next();
      MarkedBefore known = gone.remove(engine.name());
      MarkChange change = known == null ? MarkChange.NEW : known.until(engine.figures());
      counts.merge(change, 1L, Long::sum);
      if (listed.size() < ReportLimits.ENGINES) {
        listed.add(engine.listed(change));
      }
      if (first.get(change).size() < ReportLimits.CHANGES) {
        first.get(change).add(engine.listed(change));
      }
    }
    return new MarkComparison(
        listed,
        counts,
        first.get(MarkChange.NEW),
        first.get(MarkChange.WORSE),
        gone.values().stream()
            .sorted(MarkedBefore.MOST_PROBABLE_FIRST)
            .limit(ReportLimits.CHANGES)
            .toList(),
        gone.size());
  }

  /** How many ranked engines there are of a change. */
  long count(MarkChange change) {
    return counts.getOrDefault(change, 0L);
  }
}

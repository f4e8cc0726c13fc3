package borecensus.norms;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The sites whose levels are told: all of them, or in a fleet of very many the most used ones, so
 * that they and their gauges can be solved for at once.
 */
final class SiteChoice {
  /** Sites and gauges together; the work grows with their cube. */
  private static final int MOST_EFFECTS = 600;

  private final SortedMap<String, Integer> tests = new TreeMap<>();
  private final SortedMap<String, Set<String>> gauges = new TreeMap<>();

  /** Counts one test. */
  void add(String siteId, String gaugeId) {
    tests.merge(siteId, 1, Integer::sum);
    gauges.computeIfAbsent(siteId, s -> new TreeSet<>()).add(gaugeId);
  }

  /** The most used sites, by name where they are used alike. */
  Set<String> chosen() {
    List<String> bySize = new ArrayList<>(tests.keySet());
    bySize.sort(
        Comparator.comparing((String site) -> -tests.get(site)).thenComparing(site -> site));
    Set<String> chosen = new TreeSet<>();
    Set<String> met = new TreeSet<>();
    for (String site : bySize) {
      met.addAll(gauges.get(site));
      if (chosen.size() > 1 && chosen.size() + 1 + met.size() > MOST_EFFECTS) {
        break;
      }
      chosen.add(site);
    }
    return chosen;
  }
}

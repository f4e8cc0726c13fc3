package borecensus.night;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.report.ListedEngine;
import borecensus.report.NightFrame;
import borecensus.report.PageNames;
import borecensus.report.ReportLimits;
import borecensus.worklist.WorkListEntry;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Which pages a report has. Its size is bounded by {@link ReportLimits}, whatever the fleet, so
 * that it can be sent to every worker.
 *
 * @param listed marked engines, rank 1 first
 * @param families that have a page, by name
 */
record ReportPlan(NightFrame night, List<ListedEngine> listed, SortedSet<String> families)
    implements Serializable {

  ReportPlan {
    listed = List.copyOf(listed);
    families = Collections.unmodifiableSortedSet(new TreeSet<>(families));
  }

  /** The families of a fleet that have a page: those of known level, most engines first. */
  static SortedSet<String> families(FleetNorms norms) {
    SortedSet<String> families = new TreeSet<>();
    norms.families().values().stream()
        .filter(FamilyNorm::judgeable)
        .sorted(
            Comparator.comparingInt((FamilyNorm norm) -> -norm.range().engines())
                .thenComparing(norm -> norm.family().familyId()))
        .limit(ReportLimits.FAMILIES)
        .forEach(norm -> families.add(norm.family().familyId()));
    return families;
  }

  /** The page of a family; empty when it has none. */
  String familyPage(String familyId) {
    return families.contains(familyId) ? PageNames.family(familyId) : "";
  }

  /** The listed engines by vehicle; a vehicle has one engine in service. */
  SortedMap<String, ListedEngine> byVehicle() {
    SortedMap<String, ListedEngine> byVehicle = new TreeMap<>();
    listed.forEach(engine -> byVehicle.put(engine.entry().vehicleId(), engine));
    return byVehicle;
  }

  /** The listed engines of each family, by rank, as many as its page names. */
  SortedMap<String, List<ListedEngine>> byFamily() {
    SortedMap<String, List<ListedEngine>> byFamily = new TreeMap<>();
    for (ListedEngine engine : listed) {
      List<ListedEngine> family =
          byFamily.computeIfAbsent(engine.entry().familyId(), id -> new ArrayList<>());
      if (family.size() < ReportLimits.MARKED_OF_A_FAMILY) {
        family.add(engine);
      }
    }
    return byFamily;
  }

  /** The names of all engine and family pages, from the report's folder. */
  SortedSet<String> pages() {
    SortedSet<String> pages = new TreeSet<>();
    for (ListedEngine engine : listed) {
      WorkListEntry entry = engine.entry();
      pages.add(PageNames.engine(entry.vehicleId(), entry.engineId()));
    }
    families.forEach(family -> pages.add(PageNames.family(family)));
    return pages;
  }
}

package borecensus.report;

import static borecensus.inspections.InspectionGroup.DRAWN_AT_RANDOM;
import static borecensus.inspections.InspectionGroup.MARKED;
import static borecensus.inspections.InspectionGroup.NOT_MARKED;

import borecensus.inspections.FindingRate;
import borecensus.inspections.InspectionGroup;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The rates by family and reason; what is not there was never inspected. */
final class ToldRates {
  private final Map<String, Map<String, FindingRate>> byFamily;

  ToldRates(List<FindingRate> rates) {
    byFamily =
        rates.stream()
            .collect(
                Collectors.groupingBy(
                    FindingRate::familyId,
                    TreeMap::new,
                    Collectors.toMap(FindingRate::reason, rate -> rate)));
  }

  /**
   * A hit rate in words.
   *
   * @param rate a dash without any inspection that told something
   * @param counts how many of how many
   * @param limits for 95 of 100 cases; empty without any
   */
  record Told(String rate, String counts, String limits) {}

  FindingRate of(String familyId, String reason) {
    return byFamily
        .getOrDefault(familyId, Map.of())
        .getOrDefault(reason, new FindingRate(familyId, reason, 0, 0, 0));
  }

  Told told(String familyId, String reason) {
    FindingRate rate = of(familyId, reason);
    return rate.inspected() == 0
        ? new Told("–", "none inspected", "")
        : new Told(
            PlainNumbers.percent(100 * rate.hitRate()),
            ShownText.count(rate.confirmed()) + " of " + ShownText.count(rate.inspected()),
            PlainNumbers.percent(100 * rate.limits().lower())
                + " to "
                + PlainNumbers.percent(100 * rate.limits().upper()));
  }

  boolean has(InspectionGroup group) {
    return of(FindingRate.FLEET, group.code()).inspected() > 0;
  }

  /** The fleet's groups. */
  Stream<FindingRate> fleet() {
    return Arrays.stream(InspectionGroup.values())
        .map(group -> of(FindingRate.FLEET, group.code()))
        .filter(rate -> rate.inspected() + rate.inconclusive() > 0);
  }

  /** Families with inspections that told something, those with most first. */
  List<String> families() {
    List<String> families = new ArrayList<>(byFamily.keySet());
    families.remove(FindingRate.FLEET);
    families.removeIf(id -> inspected(id) == 0);
    families.sort(Comparator.comparingLong((String id) -> -inspected(id)).thenComparing(id -> id));
    return families;
  }

  private long inspected(String familyId) {
    return Stream.of(MARKED, DRAWN_AT_RANDOM, NOT_MARKED)
        .mapToLong(group -> of(familyId, group.code()).inspected())
        .sum();
  }
}

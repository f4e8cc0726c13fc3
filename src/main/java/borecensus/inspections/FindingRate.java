package borecensus.inspections;

import borecensus.statistics.WilsonInterval;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * How many inspected engines had a fault. Only inspections that told something count: an engine
 * that was never opened, or without a result, says nothing.
 *
 * @param familyId the family, or {@link #FLEET}
 * @param reason what it was marked for, or a group of {@link InspectionGroup}
 */
public record FindingRate(
    String familyId, String reason, long confirmed, long noFaultFound, long inconclusive) {

  /** The family_id that stands for the whole fleet. */
  public static final String FLEET = "*";

  /**
   * Inspections of one kind.
   *
   * @param reason what the engine was marked for; empty when it was not
   * @param fault whether a fault was found; null when the inspection told nothing
   */
  public record Count(
      String familyId, InspectionGroup group, String reason, Boolean fault, long inspections) {}

  /** Rates of every family and the fleet, by reason and by group, in the order of the table. */
  public static List<FindingRate> of(List<Count> counts) {
    SortedMap<String, SortedMap<String, FindingRate>> rates = new TreeMap<>();
    for (Count count : counts) {
      for (String family : List.of(count.familyId(), FLEET)) {
        add(rates, family, count.group().code(), count);
        if (count.group() == InspectionGroup.MARKED) {
          add(rates, family, count.reason(), count);
        }
      }
    }
    List<FindingRate> all = new ArrayList<>();
    rates.values().forEach(byReason -> all.addAll(byReason.values()));
    return all;
  }

  private static void add(
      SortedMap<String, SortedMap<String, FindingRate>> rates,
      String family,
      String reason,
      Count count) {
    rates
        .computeIfAbsent(family, f -> new TreeMap<>())
        .merge(reason, of(family, reason, count), FindingRate::plus);
  }

  private static FindingRate of(String family, String reason, Count count) {
    long n = count.inspections();
    boolean told = count.fault() != null;
    boolean fault = told && count.fault();
    return new FindingRate(family, reason, fault ? n : 0, told && !fault ? n : 0, told ? 0 : n);
  }

  private FindingRate plus(FindingRate other) {
    return new FindingRate(
        familyId,
        reason,
        confirmed + other.confirmed,
        noFaultFound + other.noFaultFound,
        inconclusive + other.inconclusive);
  }

  /** Inspections that told something. */
  public long inspected() {
    return confirmed + noFaultFound;
  }

  /** Share of them with a fault; NaN without any. */
  public double hitRate() {
    return (double) confirmed / inspected();
  }

  /** Its limits for 95 of 100 cases. */
  public WilsonInterval limits() {
    return WilsonInterval.of(confirmed, inspected(), WilsonInterval.Z_95);
  }
}

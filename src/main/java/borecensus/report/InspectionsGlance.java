package borecensus.report;

import borecensus.inspections.FindingRate;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;

/**
 * What inspections have taught, and who is to be inspected or tested next. The lists are cut, the
 * counts are not.
 *
 * @param rates hit rates of the fleet and of every family
 * @param draw this month's engines for inspection
 * @param plan the unmarked engines whose test would tell most, first rank first
 * @param inspected engines in service that an inspection has told something of, latest first
 */
public record InspectionsGlance(
    List<FindingRate> rates, Draw draw, Counted<PlannedTest> plan, Counted<Inspected> inspected) {

  public InspectionsGlance {
    rates = List.copyOf(rates);
  }

  /** The first of many. */
  public record Counted<T>(List<T> first, long inAll) {
    public Counted {
      first = List.copyOf(first);
    }
  }

  /** The engines drawn in a month. */
  public record Draw(YearMonth month, List<DrawnEngine> engines) {
    public Draw {
      engines = List.copyOf(engines);
    }
  }

  /**
   * An unmarked engine that was drawn for inspection.
   *
   * @param eligible from how many it was drawn
   */
  public record DrawnEngine(
      String vehicleId,
      String engineId,
      String familyId,
      String siteId,
      LocalDate lastTestedOn,
      long eligible) {}

  /**
   * An unmarked engine that is worth a test.
   *
   * @param score 0 to 100
   * @param why in words
   * @param lastTestedOn null when never tested
   * @param nextServiceOn null when not stated
   */
  public record PlannedTest(
      int rank,
      String vehicleId,
      String familyId,
      String siteId,
      double score,
      String why,
      LocalDate lastTestedOn,
      LocalDate nextServiceOn) {}

  /**
   * An engine in service by its last inspection that told something.
   *
   * @param foundFault whether a fault was confirmed
   * @param clearedOn the day on which it was found sound; null when a fault was confirmed
   * @param marked whether it is marked tonight
   */
  public record Inspected(
      String vehicleId,
      String engineId,
      String familyId,
      LocalDate inspectedOn,
      boolean foundFault,
      LocalDate clearedOn,
      boolean marked) {}
}

package borecensus.worklist;

import borecensus.norms.UsageAxis;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** The columns of work_list.csv, each with its meaning and how it is written. */
public enum WorkListColumn {
  RANK("1 for the engine to look at first", e -> String.valueOf(e.rank())),
  VEHICLE_ID("the vehicle", WorkListEntry::vehicleId),
  ENGINE_ID("the engine now in it", WorkListEntry::engineId),
  FAMILY_ID("its family", WorkListEntry::familyId),
  PRIORITY("0 to 100: probability x severity x consequence x cost", e -> decimals(2, e.priority())),
  FAULT_PROBABILITY(
      "posterior probability that the engine, not the measurement, is outside the healthy"
          + " population",
      e -> decimals(4, e.faultProbability())),
  MAIN_REASON("what weighs most", e -> e.mainReason().code()),
  SUSPECT_CYLINDERS(
      "cylinder numbers joined by a semicolon; empty: the whole engine",
      e -> String.join(";", e.suspectCylinders().stream().map(String::valueOf).toList())),
  EVIDENCE("observed, expected, how unusual, from how many", WorkListEntry::evidence),
  NEXT_STEP("what to do first", WorkListEntry::nextStep),
  LAST_TESTED_ON(
      "date of the last test used",
      e -> e.lastTestedOn() == null ? "" : e.lastTestedOn().toString()),
  SITE_ID("home site of the vehicle", WorkListEntry::siteId),
  LIKELY_CAUSES(
      "what may be behind it, most probable first, with the probability of each",
      e -> causes(e.outlook())),
  CAUSE_EVIDENCE("what wet test and first stroke showed", e -> e.outlook().causeEvidence()),
  DISTANCE_TO_LIMIT_KM(
      "km until the maker's minimum or the family's first centile, at the present pace",
      e -> whole(e.outlook().toLimit(UsageAxis.KM, LimitDistance::usage))),
  DISTANCE_TO_LIMIT_LOWER_KM(
      "1 in 20 would have less left",
      e -> whole(e.outlook().toLimit(UsageAxis.KM, LimitDistance::lowerUsage))),
  DISTANCE_TO_LIMIT_UPPER_KM(
      "1 in 20 would have more left",
      e -> whole(e.outlook().toLimit(UsageAxis.KM, LimitDistance::upperUsage))),
  HOURS_TO_LIMIT(
      "the same in engine hours, in families judged over hours",
      e -> whole(e.outlook().toLimit(UsageAxis.HOURS, LimitDistance::usage))),
  EXPECTED_SAVING(
      "what an inspection is expected to save, in the fleet's own money",
      e -> decimals(0, e.outlook().expectedSaving()));

  private final String meaning;
  private final transient Function<WorkListEntry, String> cell;

  WorkListColumn(String meaning, Function<WorkListEntry, String> cell) {
    this.meaning = meaning;
    this.cell = cell;
  }

  /** The column's name in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What stands in the column. */
  public String meaning() {
    return meaning;
  }

  /** The entry's cell; an absent number is empty. */
  public String cellOf(WorkListEntry entry) {
    return cell.apply(entry);
  }

  private static String causes(Outlook outlook) {
    return IntStream.range(0, outlook.likelyCauses().size())
        .mapToObj(
            i ->
                outlook.likelyCauses().get(i).code()
                    + " "
                    + decimals(2, outlook.causeShares().get(i)))
        .collect(Collectors.joining(";"));
  }

  private static String whole(double value) {
    return decimals(0, value);
  }

  private static String decimals(int places, double value) {
    return Double.isNaN(value) ? "" : PlainNumbers.fixed(places, value);
  }
}

package borecensus.report;

import borecensus.domain.RowCode;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.TestToRepeat;
import borecensus.worklist.WorkListEntry;
import java.time.LocalDate;
import java.util.List;

/**
 * Everything that the report shows. Lists are shown in the order given.
 *
 * @param asOf the night
 * @param runId the run that published the snapshot
 * @param softwareVersion of this program
 * @param counts the night in numbers
 * @param workList all marked engines, rank 1 first; the page shows the first of them
 * @param repeats engines whose last test is to be made again, newest first; the page shows the
 *     first of them
 * @param repeatsInAll how many there are
 * @param families every family with tests
 * @param gauges every gauge with an estimated offset; the page shows those to have checked
 * @param rejected the codes that occurred
 */
public record ReportData(
    LocalDate asOf,
    String runId,
    String softwareVersion,
    Counts counts,
    List<MarkedEngine> workList,
    List<TestToRepeat> repeats,
    long repeatsInAll,
    List<FamilyGlance> families,
    List<GaugeGlance> gauges,
    List<RejectedRows> rejected) {

  public ReportData {
    workList = List.copyOf(workList);
    repeats = List.copyOf(repeats);
    families = List.copyOf(families);
    gauges = List.copyOf(gauges);
    rejected = List.copyOf(rejected);
  }

  /**
   * The night in numbers.
   *
   * @param engines in service and screened
   * @param tests accepted, over all nights
   * @param marked engines outside the norm
   * @param rejectedRows refused rows
   */
  public record Counts(long engines, long tests, long marked, long rejectedRows) {}

  /**
   * One marked engine and the readings of its last trusted test.
   *
   * @param deviationPct by cylinder, cylinder 1 first: 100 x (reading / expected - 1); NaN where
   *     not read; empty when there is nothing to draw
   */
  public record MarkedEngine(WorkListEntry entry, List<Double> deviationPct) {
    public MarkedEngine {
      deviationPct = List.copyOf(deviationPct);
    }
  }

  /**
   * A family's norm in one line.
   *
   * @param engines that the norm rests on
   * @param tests that the norm rests on
   * @param middle the middle of the family's distances or hours
   * @param medianKpa level of a healthy engine there; NaN when the family is too small to judge
   * @param spreadP95Pct the spread that 95 of 100 healthy engines stay within; NaN likewise
   */
  public record FamilyGlance(
      String familyId,
      long engines,
      long tests,
      Usage middle,
      double medianKpa,
      double spreadP95Pct) {}

  /**
   * A gauge against the others.
   *
   * @param offsetPct reads high: positive
   * @param standardErrorPct of the offset
   */
  public record GaugeGlance(String gaugeId, long tests, double offsetPct, double standardErrorPct) {

    private static final double WORTH_CHECKING_PCT = 2;
    private static final double STANDARD_ERRORS = 2;

    /**
     * Whether it should be checked: off by more than two standard errors, so hardly by chance, and
     * by more than 2 %, so that it matters. A gauge with an unknown error is not accused.
     */
    public boolean toBeChecked() {
      double size = Math.abs(offsetPct);
      return size > STANDARD_ERRORS * standardErrorPct && size > WORTH_CHECKING_PCT;
    }
  }

  /** How many rows were refused with one code. */
  public record RejectedRows(RowCode code, long rows) {}
}

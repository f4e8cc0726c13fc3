package borecensus.report;

import borecensus.domain.RowCode;
import borecensus.worklist.EvidenceInput.Usage;
import borecensus.worklist.TestToRepeat;
import java.time.LocalDate;
import java.util.List;

/**
 * Everything that the morning page shows. Lists are shown in the order given, and are cut by the
 * caller; how many there are in all stands beside them.
 *
 * @param changes since the night before
 * @param workList the first page of marked engines, rank 1 first
 * @param repeats engines whose last test is to be made again, newest first
 * @param repeatsInAll how many there are
 * @param staleness engines that were not tested for long
 * @param families those of known level, by name
 * @param familiesInAll how many there are
 * @param learnedBefore the first day whose tests did not teach the norms; null where all did
 * @param gauges every gauge with an estimated offset; the page shows those to have checked
 * @param pressure whether readings follow ambient pressure
 * @param rejected the codes that occurred
 * @param inspections what inspections have taught, and who is next
 */
public record ReportData(
    NightFrame night,
    Counts counts,
    ChangesSince changes,
    List<ListedEngine> workList,
    List<TestToRepeat> repeats,
    long repeatsInAll,
    Staleness staleness,
    List<FamilyGlance> families,
    long familiesInAll,
    LocalDate learnedBefore,
    List<GaugeGlance> gauges,
    PressureGlance pressure,
    List<RejectedRows> rejected,
    InspectionsGlance inspections) {

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
   * @param rows what became of every record of the sheets
   */
  public record Counts(long engines, long tests, long marked, Rows rows) {}

  /** Records of all sheet files: read is the sum of the others. */
  public record Rows(long read, long accepted, long rejected, long superseded) {}

  /**
   * Engines whose last test is old.
   *
   * @param oldest the longest ago first
   * @param inAll how many there are
   * @param neverTested engines in service without any accepted dry test
   */
  public record Staleness(List<StaleTest> oldest, long inAll, long neverTested) {
    /** Days after which a test is called old: a year and a half (a choice, no source). */
    public static final int OLD_AFTER_DAYS = 548;

    public Staleness {
      oldest = List.copyOf(oldest);
    }
  }

  /** An engine with an old test. */
  public record StaleTest(String vehicleId, String familyId, String siteId, LocalDate testedOn) {}

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
   * Whether the fleet's readings follow ambient pressure.
   *
   * @param rejected whether they do not
   * @param exponent of ambient pressure, 1 expected; NaN when not known
   * @param standardError of the exponent
   * @param sites those whose level is off by more than their errors explain, worst first
   */
  public record PressureGlance(
      boolean rejected, double exponent, double standardError, List<SiteGlance> sites) {
    public PressureGlance {
      sites = List.copyOf(sites);
    }
  }

  /** A site whose engines read off as a whole. */
  public record SiteGlance(String siteId, long tests, double residualPct, double standardErrorPct) {

    private static final double WORTH_CHECKING_PCT = 2;
    private static final double STANDARD_ERRORS = 3;

    /**
     * Whether it should be looked at: off by 2 % and by three standard errors (a choice, no
     * source); sites are many, so that two would name one in twenty of them for nothing.
     */
    public boolean toBeChecked() {
      double size = Math.abs(residualPct);
      return size > STANDARD_ERRORS * standardErrorPct && size > WORTH_CHECKING_PCT;
    }
  }

  /** How many rows were refused with one code. */
  public record RejectedRows(RowCode code, long rows) {}
}

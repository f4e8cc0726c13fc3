package borecensus.report;

/**
 * How much a report holds at most, whatever the fleet. An engine's page takes about 45 kB and a
 * family's about 60 kB, so that a report stays below 200 MB and its morning page below 1 MB.
 */
public final class ReportLimits {
  private ReportLimits() {}

  /** Marked engines that are listed and have a page, by rank; all stand in the spreadsheet. */
  public static final int ENGINES = 2_000;

  /** Engines on one page of the list. */
  public static final int ENGINES_ON_A_PAGE = 100;

  /** Families that are listed and have a page, those with most engines first. */
  public static final int FAMILIES = 1_000;

  /** Engines drawn as points on a family's page, beside those that are marked. */
  public static final int POINTS_OF_A_FAMILY = 300;

  /** Marked engines named on a family's page. */
  public static final int MARKED_OF_A_FAMILY = 100;

  /** Lines of a list beside the work list. */
  public static final int LINES = 100;

  /** Engines with old tests that are named. */
  public static final int OLD_TESTS = 30;

  /** Engines named for each change since the night before. */
  public static final int CHANGES = 30;

  /** Families whose hit rates are told, those with most inspections first. */
  public static final int RATED_FAMILIES = 50;

  /** Engines named by their last inspection. */
  public static final int INSPECTED = 30;

  /** Engines of the plan that are named. */
  public static final int PLANNED = 15;
}

package borecensus.evaluate;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;

/**
 * A fleet for measuring speed: five tests an engine and eight cylinders on average, several depots,
 * drifting gauges, every kind of fault.
 *
 * @param engines one in each vehicle
 * @param skew what is uneven in it
 */
public record LargeFleetPlan(int engines, Skew skew, long seed) {
  /** The date of the nights that are measured. */
  public static final LocalDate NIGHT = LocalDate.of(2030, 1, 1);

  private static final int ENGINES_PER_SITE = 2_000;
  private static final int FEWEST_SITES = 10;
  private static final int GAUGES_PER_SITE = 10;
  private static final int TESTS_PER_FILE = 50_000;
  private static final int LAYOUT_GROUPS = 5;
  private static final int MOST_TESTS = 9;

  /** Eight cylinders on average. */
  static final List<String> LAYOUTS =
      List.of(
          "1;3;5;7|2;4;6;8",
          "1-6|7-12",
          "1-4",
          "1-6",
          "1;3;5;7|2;4;6;8",
          "1;3;5|2;4;6",
          "1-6|7-12",
          "1;3;5;7|2;4;6;8");

  /** What may be uneven in a fleet. */
  public enum Skew {
    NONE,
    /** Nine engines of ten are of one family. */
    FAMILY,
    /** One gauge makes half of all tests. */
    GAUGE,
    /** One engine has 5,000 tests. */
    ENGINE
  }

  public LargeFleetPlan {
    if (engines < 1) {
      throw new IllegalArgumentException("a fleet has at least one engine");
    }
  }

  FleetPlan laws() {
    return FleetPlan.TYPICAL.withSize(FamilySizes.MIXED, MOST_TESTS);
  }

  int sites() {
    return Math.max(FEWEST_SITES, engines / ENGINES_PER_SITE);
  }

  int gauges() {
    return sites() * GAUGES_PER_SITE;
  }

  int families() {
    return LAYOUT_GROUPS * LAYOUTS.size();
  }

  int enginesPerFile() {
    return TESTS_PER_FILE / 5;
  }

  DriftingGauges stock() {
    double favourite = skew == Skew.GAUGE ? 0.5 : 0;
    return new DriftingGauges(GAUGES_PER_SITE, laws().gaugeSd(), 0.1, favourite, seed);
  }

  /** Family of an engine: groups of families with all layouts, large ones and small ones. */
  int familyOf(int engine) {
    long mixed = (engine * 0x9E3779B97F4A7C15L) >>> 1;
    if (skew == Skew.FAMILY && mixed % 10 != 0) {
      return 0;
    }
    int layout = (int) ((mixed >>> 8) % LAYOUTS.size());
    int share = (int) ((mixed >>> 20) % 15);
    int group = share < 6 ? 0 : share < 10 ? 1 : share < 12 ? 2 : share < 14 ? 3 : 4;
    return group * LAYOUTS.size() + layout;
  }

  /** Tests of an engine where the plan fixes them; 0 where they are drawn. */
  int fixedTests(int engine) {
    return skew == Skew.ENGINE && engine == 0 ? 5_000 : 0;
  }

  /**
   * An engine's late test is made in the week before the night, whatever the course of its life.
   */
  static LocalDateTime dayOfLateTest(int engine) {
    return NIGHT.minusDays(1 + engine / 20 % 7).atTime(10, 0);
  }

  /** Whether the last test of an engine comes a night later: about one test in a hundred. */
  static boolean testedLate(int engine) {
    return engine % 20 == 7;
  }
}

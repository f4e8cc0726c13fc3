package borecensus.worklist;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import java.util.Locale;

/**
 * One thing to do after a mark, with its source. Where workshops simply do it so and nothing
 * published says it, the source says that.
 */
public enum FollowUp {
  MAKER_PROCEDURE(
      Phase.RULE,
      "read the maker's procedure and limits for this family: they come before anything said here",
      "common practice, no source"),
  COOLANT_LOSS(
      Phase.VALIDITY,
      "ask about coolant loss, and where there is any let a qualified person decide at once"
          + " whether the engine may be cranked or run (hydraulic lock)",
      "common practice, no source"),
  ORIGINAL_SHEET(
      Phase.VALIDITY,
      "find the original sheet and ask whoever filled it",
      "common practice, no source"),
  HISTORY(
      Phase.VALIDITY,
      "compare the earlier sheets: same gauge, same protocol, and no work done in between",
      "Sluder and West 2011, SAE 2011-01-2427: most changes lie within repeat-test uncertainty"),
  CONDITIONS(
      Phase.VALIDITY,
      "check the throttle was wide open, the battery charged, the cranking speed reached, the"
          + " engine at the maker's temperature and the ambient pressure right",
      "common practice, no source"),
  DIESEL_GAUGE(
      Phase.VALIDITY,
      "check that a gauge rated for diesels was used and that no cylinder could fire",
      "makers' diesel procedures: a cylinder that fires destroys the gauge"),
  REPEAT_TEST(
      Phase.VALIDITY,
      "repeat the compression test with the same number of strokes on each cylinder, the gauge"
          + " released to zero after each",
      "makers' procedures; Sluder and West 2011, SAE 2011-01-2427 on repeat-test uncertainty"),
  SECOND_GAUGE(
      Phase.VALIDITY,
      "take the reading again with a second gauge and adaptor that are known to read right",
      "common practice, no source"),
  ROAD_TEST(
      Phase.VALIDITY,
      "refit, road test and test again: loose carbon under a valve imitates a fault",
      "a car maker's workshop manual, compression test: refit, road test, test again"),
  FIRST_STROKE(
      Phase.DIAGNOSIS,
      "note the first stroke of every cylinder besides its peak: low and building points to rings"
          + " or bore, low and hardly building to a valve or the gasket",
      "makers' workshop manuals, compression test"),
  WET_TEST(
      Phase.DIAGNOSIS,
      "test again with a little oil in the low cylinder, as the maker permits it: a rise of 10 %"
          + " or more points to rings or bore, none to a valve or the gasket",
      "a car maker's workshop manual of 1997, compression test: a rise of 10 % or more"),
  INDUCTION(
      Phase.DIAGNOSIS,
      "look over that bank's induction and exhaust for a restriction or a leak",
      "common practice, no source"),
  CAM_TIMING(
      Phase.DIAGNOSIS, "check the cam timing and the timing drive", "common practice, no source"),
  LEAK_DOWN(
      Phase.DIAGNOSIS,
      "do a leak-down test and listen: crankcase filler means rings, intake the inlet valve,"
          + " exhaust the exhaust valve, the next plug hole or bubbles in the coolant the gasket",
      "common practice, no source; loss limits are the maker's"),
  BORESCOPE(
      Phase.DIAGNOSIS,
      "look into the cylinder with a borescope for carbon, a burnt valve or a scored bore",
      "common practice, no source"),
  VALVE_CLEARANCE(Phase.DIAGNOSIS, "check the valve clearance", "common practice, no source"),
  COMBUSTION_GAS(
      Phase.DIAGNOSIS, "test the coolant for combustion gas", "common practice, no source"),
  STRIP_DOWN(
      Phase.LAST,
      "strip down only when the tests before agree on a cause",
      "common practice, no source");

  /** Where a step stands: the rule above all, validity first, then the cause, then the spanners. */
  public enum Phase {
    RULE,
    VALIDITY,
    DIAGNOSIS,
    LAST;

    /** The word used in tables. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  private final Phase phase;
  private final String instruction;
  private final String source;

  FollowUp(Phase phase, String instruction, String source) {
    this.phase = phase;
    this.instruction = instruction;
    this.source = source;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Where it stands among the others. */
  public Phase phase() {
    return phase;
  }

  /** What to do, as an order without its first capital and its full stop. */
  public String instruction() {
    return instruction;
  }

  /** Who says so. */
  public String source() {
    return source;
  }

  /** The families for which it may be proposed, in words. */
  public String condition() {
    return switch (this) {
      case WET_TEST -> "families with wet_test allowed";
      case DIESEL_GAUGE -> "diesels";
      default -> "every family";
    };
  }

  /** Whether it may be proposed for engines of this family. */
  public boolean suits(Family family) {
    return switch (this) {
      case WET_TEST -> family.wetTest() == WetTest.ALLOWED;
      case DIESEL_GAUGE -> family.fuel() == Fuel.DIESEL;
      default -> true;
    };
  }
}

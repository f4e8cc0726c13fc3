package borecensus.worklist;

import borecensus.domain.Doubt;
import borecensus.domain.Reason;
import java.util.List;

/**
 * The numbers behind one mark. Any number may be NaN; the sentence then leaves it out.
 *
 * @param reason what is unusual
 * @param cylinders the cylinders meant, in rising order; empty for the whole engine
 * @param measure what was observed and what was to be expected
 * @param tailProbability the share of healthy engines at least as unusual, 0 to 1
 * @param usage how far the engine has run
 * @param doubts what is wrong with the measurement, for a doubtful one
 * @param tests the engine's tests that were used
 * @param familyEngines the engines that the family's norm rests on
 */
public record EvidenceInput(
    Reason reason,
    List<Integer> cylinders,
    Measure measure,
    double tailProbability,
    Usage usage,
    List<Doubt> doubts,
    int tests,
    int familyEngines) {

  /** What is compared, and in which unit. */
  public enum Quantity {
    /** Gauge pressure at reference conditions, in kPa. */
    PRESSURE_KPA,
    /** 100 x (highest - lowest) / highest, in per cent. */
    SPREAD_PCT,
    /** Change of the reading, in per cent per 100,000 km or per 1,000 hours. */
    CHANGE_PCT
  }

  /** What an expectation rests on. */
  public enum Basis {
    /** The family's norm alone. */
    FAMILY,
    /** The family's norm, brought to the level of the engine's other cylinders in the same test. */
    OTHER_CYLINDERS
  }

  /**
   * Observed against expected, both in the unit of the quantity; NaN where unknown.
   *
   * @param expected of a healthy engine; for {@link Reason#BELOW_MAKER_LIMIT} the maker's limit
   * @param basis what the expectation rests on
   */
  public record Measure(Quantity quantity, double observed, double expected, Basis basis) {
    /** Gauge pressures at reference conditions. */
    public static Measure kpa(double observedKpa, double expectedKpa) {
      return new Measure(Quantity.PRESSURE_KPA, observedKpa, expectedKpa, Basis.FAMILY);
    }

    /** Gauge pressures, expected from the family's norm at the level of the other cylinders. */
    public static Measure kpaBesideOthers(double observedKpa, double expectedKpa) {
      return new Measure(Quantity.PRESSURE_KPA, observedKpa, expectedKpa, Basis.OTHER_CYLINDERS);
    }

    /** Spreads between the cylinders of one test. */
    public static Measure spreadPct(double observedPct, double expectedPct) {
      return new Measure(Quantity.SPREAD_PCT, observedPct, expectedPct, Basis.FAMILY);
    }

    /** Changes in per cent per 100,000 km or per 1,000 hours; falling is negative. */
    public static Measure changePct(double observedPct, double expectedPct) {
      return new Measure(Quantity.CHANGE_PCT, observedPct, expectedPct, Basis.FAMILY);
    }
  }

  /**
   * How far the engine has run; NaN where its family does not count so.
   *
   * @param distanceKm odometer
   * @param engineHours hour meter; used only where the distance is NaN
   */
  public record Usage(double distanceKm, double engineHours) {}

  public EvidenceInput {
    cylinders = List.copyOf(cylinders);
    doubts = List.copyOf(doubts);
  }
}

package borecensus.simulate;

import borecensus.domain.Banks;
import borecensus.domain.Fuel;
import borecensus.domain.WetTest;
import java.util.List;

/**
 * A family of engines and how its compression goes with use.
 *
 * @param banks layout as in families.csv; empty for one bank in number order
 * @param firingOrder free text for the register; may be empty
 * @param compressionRatio for the register; null when not stated
 * @param wetTest for the register; null when not stated
 * @param positionPct lasting effect of each cylinder's position, in per cent; empty for none
 * @param vehicles how many the fleet has
 * @param usePerYear mean use in km or hours per year
 */
public record FamilyPlan(
    String familyId,
    Fuel fuel,
    int cylinders,
    String banks,
    String firingOrder,
    Double compressionRatio,
    WetTest wetTest,
    int vehicles,
    UsageMeter meter,
    double usePerYear,
    List<Double> positionPct,
    MakerLimits limits,
    Wear wear,
    Protocol protocol) {

  /** The maker's figures, each null when not stated; pressures are gauge pressures. */
  public record MakerLimits(Double nominalKpa, Double minKpa, Double maxSpreadPct) {}

  /**
   * The family's true mean reading at reference conditions against use.
   *
   * @param freshKpa mean gauge pressure of a new engine
   * @param pctPerSpan per cent lost per span (see {@link UsageMeter})
   * @param bendAt use beyond which wear is faster, in km or hours; 0 for no bend
   * @param extraPctPerSpan per cent lost per span beyond the bend, on top
   */
  public record Wear(double freshKpa, double pctPerSpan, double bendAt, double extraPctPerSpan) {}

  /** How the family is tested. */
  public record Protocol(int strokes, double engineTempC, double crankingRpm) {}

  public FamilyPlan {
    positionPct = Given.list(positionPct);
    banks = banks == null ? "" : banks;
    firingOrder = firingOrder == null ? "" : firingOrder;
  }

  /** Where the cylinders stand. */
  public Banks layout() {
    return Banks.parse(banks, cylinders);
  }

  /** Whether oil may go into a cylinder. */
  public boolean wetTestAllowed() {
    return (wetTest == null ? WetTest.usualFor(fuel) : wetTest) == WetTest.ALLOWED;
  }

  /** Natural logarithm of the true mean reading (kPa, gauge, reference conditions) at a use. */
  public double logMeanKpa(double use) {
    double late = wear.bendAt() > 0 ? Math.max(0, use - wear.bendAt()) : 0;
    double lostPct = (wear.pctPerSpan() * use + wear.extraPctPerSpan() * late) / meter.span();
    return Math.log(wear.freshKpa()) - lostPct / 100;
  }

  /** Effect of a cylinder's position on the log reading; cylinders count from 1. */
  public double positionLog(int cylinder) {
    return positionPct.isEmpty() ? 0 : positionPct.get(cylinder - 1) / 100;
  }
}

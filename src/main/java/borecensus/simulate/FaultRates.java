package borecensus.simulate;

import borecensus.domain.Reason;
import java.util.List;

/**
 * How often engines are faulty, and how.
 *
 * @param share share of engines in service with a fault
 * @param curedShare share of vehicles whose engine had a fault that was found and repaired
 * @param kinds the faults, each with its weight among those that the engine's layout permits
 */
public record FaultRates(double share, double curedShare, List<Kind> kinds) {

  /**
   * One kind of fault.
   *
   * @param kind a mechanical reason
   * @param weight how often, relative to the other kinds
   * @param minPct least severity at the last test, in per cent of the reading
   * @param medianPct typical severity
   * @param maxPct greatest severity
   * @param deadShare share of them where the cylinder ends dead, reading 0
   * @param presentAtFirstTestShare share of them already there at the first test; falling kinds
   *     always begin after it
   */
  public record Kind(
      Reason kind,
      double weight,
      double minPct,
      double medianPct,
      double maxPct,
      double deadShare,
      double presentAtFirstTestShare) {

    /** Whether the fault is a fall that begins after the first test. */
    public boolean falling() {
      return kind == Reason.FALLING_CYLINDER || kind == Reason.FALLING_LEVEL;
    }
  }

  public FaultRates {
    kinds = Given.list(kinds);
  }
}

package borecensus.simulate;

import borecensus.domain.Fuel;
import borecensus.domain.PressureUnit;
import java.util.List;

/**
 * A gauge of one depot.
 *
 * @param resolution the step to which it is read, in its unit
 * @param fullScale the end of its scale, in its unit
 * @param accuracyPct for the register; null when not stated
 * @param fuels the engines it is rated for
 * @param offsetPct by how much it reads high; null to draw it at random
 */
public record GaugePlan(
    String gaugeId,
    String siteId,
    PressureUnit unit,
    double resolution,
    double fullScale,
    Double accuracyPct,
    List<Fuel> fuels,
    Double offsetPct) {

  /** How far above a new engine's mean the scale must reach, so that a high cylinder still fits. */
  private static final double HEADROOM = 1.2;

  public GaugePlan {
    fuels = Given.list(fuels);
  }

  /** Whether this gauge can test engines of the family. */
  public boolean suits(FamilyPlan family) {
    return fuels.contains(family.fuel())
        && unit.toKpa(fullScale) >= HEADROOM * family.wear().freshKpa();
  }

  /** What the dial is read as, in its unit: the nearest step, within the scale. */
  public double read(double kpa) {
    double steps = Math.rint(unit.fromKpa(kpa) / resolution);
    return Math.min(fullScale, Math.max(0, steps * resolution));
  }
}

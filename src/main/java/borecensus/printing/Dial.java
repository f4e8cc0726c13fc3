package borecensus.printing;

import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * Pressures as a gauge shows them: in its unit, at the marks of its dial.
 *
 * @param unit the unit of the dial
 * @param resolution the step between marks that can be read, in the unit
 */
record Dial(PressureUnit unit, double resolution) {

  /** So far above a mark, in divisions, a limit still counts as standing on it. */
  private static final double READABLE_DIVISION = 0.1;

  /** The dial of a gauge; of no gauge: whole tens of kilopascal. */
  static Dial of(Optional<Gauge> gauge) {
    return gauge
        .map(known -> new Dial(known.unit(), known.resolution()))
        .orElse(new Dial(PressureUnit.KPA, 10));
  }

  /** The nearest mark; NaN gives a dash. */
  String nearest(double kpa) {
    return mark(Math.rint(divisions(kpa)));
  }

  /**
   * A lower limit as the mark that must be reached: rounded up, so that rounding never relaxes it,
   * by more than a tenth of a division at least, which nobody reads. NaN gives a dash.
   */
  String lowestPassing(double kpa) {
    return mark(Math.ceil(divisions(kpa) - READABLE_DIVISION));
  }

  /** The unit as people write it. */
  String unitText() {
    return switch (unit) {
      case PSI -> "psi";
      case KPA -> "kPa";
      case BAR -> "bar";
      case MPA -> "MPa";
      case KGF_CM2 -> "kgf/cm²";
    };
  }

  /** The step with its unit, such as 0.2 bar. */
  String stepText() {
    return step().toPlainString() + " " + unitText();
  }

  private double divisions(double kpa) {
    return unit.fromKpa(kpa) / resolution;
  }

  private String mark(double divisions) {
    if (Double.isNaN(divisions)) {
      return "–";
    }
    BigDecimal value = step().multiply(BigDecimal.valueOf((long) divisions));
    return value.setScale(step().scale(), RoundingMode.UNNECESSARY).toPlainString();
  }

  private BigDecimal step() {
    BigDecimal step = BigDecimal.valueOf(resolution).stripTrailingZeros();
    return step.scale() < 0 ? step.setScale(0, RoundingMode.UNNECESSARY) : step;
  }
}

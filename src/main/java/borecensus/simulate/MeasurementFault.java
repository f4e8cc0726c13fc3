package borecensus.simulate;

import java.util.Locale;

/** A way in which a whole test is spoiled while the engine is as it is. */
public enum MeasurementFault {
  NONE(1.0),
  /** The throttle stayed closed, and the sheet says so. */
  CLOSED_THROTTLE(0.85),
  /** Two strokes only, and the sheet says so. */
  TOO_FEW_STROKES(0.88),
  /** The numbers of an earlier sheet under a new date. */
  COPIED_READINGS(1.0),
  /** The gauge was not released between cylinders: every reading stands at the highest so far. */
  NEVER_FALLING(1.0),
  /** The engine was at room temperature; the temperature effect does the rest. */
  COLD_ENGINE(1.0);

  private final double factor;

  MeasurementFault(double factor) {
    this.factor = factor;
  }

  /** What it does to every reading. */
  public double factor() {
    return factor;
  }

  /** The word used in the truth tables; {@code none} for a sound test. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}

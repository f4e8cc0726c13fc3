package borecensus.norms;

import java.io.Serializable;

/**
 * How often healthy variation is wide: four times as large as usual. Normal variation has few
 * outliers; real engines, batteries and hands have more, and what outliers happen to healthy
 * engines must not be read as faults. Wide values are as often high as low.
 *
 * @param engine share of engines with a wide offset
 * @param cylinder share of cylinders with a wide lasting offset
 * @param test share of tests with wide noise
 * @param reading share of readings with wide noise
 */
public record Tails(double engine, double cylinder, double test, double reading)
    implements Serializable {

  /** Believed before the fleet has spoken (common practice, no source). */
  static final Tails BELIEVED = new Tails(0.005, 0.002, 0.005, 0.002);

  /** The variance that being wide adds, in usual variances: (4^2 - 1). */
  static final double ADDED_VARIANCE = 15;

  public Tails {
    if (!(engine > 0 && cylinder > 0 && test > 0 && reading > 0)) {
      throw new IllegalArgumentException("tail shares must be positive");
    }
  }
}

package borecensus.norms;

import java.io.Serializable;

/**
 * The variances of a healthy population, of log readings.
 *
 * @param engine between engines, at usage zero
 * @param slope between engines, of the change per model unit of usage
 * @param cylinder between the cylinders of an engine, lasting
 * @param test between tests, common to all cylinders
 * @param reading between readings, without the dial's rounding
 */
public record VarianceComponents(
    double engine, double slope, double cylinder, double test, double reading)
    implements Serializable {

  public VarianceComponents {
    if (!(engine > 0 && slope > 0 && cylinder > 0 && test > 0 && reading > 0)) {
      throw new IllegalArgumentException("variance components must be positive");
    }
  }

  /** From standard deviations in per cent. */
  public static VarianceComponents ofSdPct(
      double engine, double slope, double cylinder, double test, double reading) {
    return new VarianceComponents(
        square(engine / 100),
        square(slope / 100),
        square(cylinder / 100),
        square(test / 100),
        square(reading / 100));
  }

  private static double square(double x) {
    return x * x;
  }

  VarianceComponents withLevel(double newEngine, double newSlope, double newTest) {
    return new VarianceComponents(newEngine, newSlope, cylinder, newTest, reading);
  }

  VarianceComponents withSpread(double newCylinder, double newReading) {
    return new VarianceComponents(engine, slope, newCylinder, test, newReading);
  }

  /** Between engines at this usage, in model units. */
  public double engineAt(double usage) {
    return engine + slope * usage * usage;
  }
}

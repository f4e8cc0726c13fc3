package borecensus.physics;

import borecensus.domain.Limits;

/**
 * Brings cranking compression, a gauge pressure, to one ambient pressure.
 *
 * <p>Derivation: the charge starts the stroke near ambient pressure p_a and is compressed
 * polytropically (p V^n = constant; Heywood 1988, <i>Internal Combustion Engine Fundamentals</i>,
 * ch. 9), so its absolute pressure ends at p_a r^n, with r the effective compression ratio and n
 * the exponent. A gauge shows the excess over ambient:
 *
 * <pre>
 *   p_gauge = p_a r^n - p_a = p_a (r^n - 1)
 * </pre>
 *
 * Whatever r and n are, gauge pressure is therefore proportional to ambient pressure, and
 *
 * <pre>
 *   p_gauge(reference) = p_gauge(measured) x 1013.25 / p_a
 * </pre>
 *
 * The correction is linear, so ratios between the cylinders of one test are the same before and
 * after. Service tables that scale with air <i>density</i> fall more slowly with altitude (0.836 at
 * 6000 ft where pressure gives 0.801); they are not what is computed here.
 *
 * <p>NaN gives NaN. An ambient pressure that is zero, negative or infinite is refused.
 */
public final class ReferencePressure {
  private static final double KPA_PER_HPA = 0.1;

  private ReferencePressure() {}

  /**
   * A reading as it would have been at the reference ambient pressure of 1013.25 hPa.
   *
   * @param gaugeKpa the reading in kilopascal gauge; zero stays zero
   * @param ambientHpa the ambient pressure at the test in hectopascal
   * @return kilopascal gauge at reference ambient pressure
   * @throws IllegalArgumentException if the ambient pressure is not a positive finite number
   */
  public static double toReferenceKpa(double gaugeKpa, double ambientHpa) {
    requireAmbient(ambientHpa);
    return gaugeKpa * (Limits.REFERENCE_AMBIENT_HPA / ambientHpa);
  }

  /**
   * What a gauge would show at some ambient pressure: the inverse of {@link #toReferenceKpa}.
   *
   * @param referenceKpa kilopascal gauge at reference ambient pressure
   * @param ambientHpa the ambient pressure at the test in hectopascal
   * @return kilopascal gauge at that ambient pressure
   * @throws IllegalArgumentException if the ambient pressure is not a positive finite number
   */
  public static double fromReferenceKpa(double referenceKpa, double ambientHpa) {
    requireAmbient(ambientHpa);
    return referenceKpa * (ambientHpa / Limits.REFERENCE_AMBIENT_HPA);
  }

  /**
   * The ideal cranking compression p_a (r^n - 1).
   *
   * <p>Late-closing intakes, leakage and heat loss make the geometric ratio a poor predictor of a
   * real engine: use this to simulate and to check, never as a family's expected level.
   *
   * @param compressionRatio the effective ratio r, at least 1
   * @param polytropicExponent the exponent n, above 0; about 1.2 to 1.35 for a cranked engine
   * @param ambientHpa the ambient pressure in hectopascal
   * @return kilopascal gauge
   * @throws IllegalArgumentException if an argument is outside its range
   */
  public static double cylinderPressureKpa(
      double compressionRatio, double polytropicExponent, double ambientHpa) {
    requireAmbient(ambientHpa);
    if (compressionRatio < 1.0) {
      throw new IllegalArgumentException(
          "compression ratio must be at least 1, but is " + compressionRatio);
    }
    if (polytropicExponent <= 0.0) {
      throw new IllegalArgumentException(
          "polytropic exponent must be above 0, but is " + polytropicExponent);
    }
    return ambientHpa * KPA_PER_HPA * (Math.pow(compressionRatio, polytropicExponent) - 1.0);
  }

  private static void requireAmbient(double ambientHpa) {
    if (ambientHpa <= 0.0 || Double.isInfinite(ambientHpa)) {
      throw new IllegalArgumentException(
          "ambient pressure must be a finite number above 0 hPa, but is " + ambientHpa);
    }
  }
}

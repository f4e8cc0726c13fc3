package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class RatioIntervalTest {
  private static final double Z = 1.6448536269514722;

  private static RatioInterval of(double a, double va, double b, double vb, double c) {
    return RatioInterval.of(new Estimate(a, va), new Estimate(b, vb), c, Z);
  }

  /** How many standard errors the numerator less r times the denominator is from zero. */
  private static double pivot(double r, double a, double va, double b, double vb, double c) {
    return Math.abs(a - r * b) / Math.sqrt(va - 2 * r * c + r * r * vb);
  }

  /** Fieller (1954): the limits are where the pivot is exactly z. */
  @Test
  void bothLimitsSolveFiellersEquation() {
    RatioInterval interval = of(0.2, 1e-4, 0.05, 1e-4, 2e-5);
    assertEquals(Z, pivot(interval.lower(), 0.2, 1e-4, 0.05, 1e-4, 2e-5), 1e-9);
    assertEquals(Z, pivot(interval.upper(), 0.2, 1e-4, 0.05, 1e-4, 2e-5), 1e-9);
    assertTrue(interval.lower() < 4 && 4 < interval.upper());
  }

  @Test
  void withAnExactDenominatorItIsTheUsualNormalInterval() {
    RatioInterval interval = of(2, 0.09, 4, 0, 0);
    assertEquals((2 - Z * 0.3) / 4, interval.lower(), 1e-12);
    assertEquals((2 + Z * 0.3) / 4, interval.upper(), 1e-12);
  }

  @Test
  void aDenominatorThatMayBeZeroLeavesNoUpperLimit() {
    RatioInterval interval = of(0.2, 1e-4, 0.01, 1e-4, 0);
    assertEquals(Double.POSITIVE_INFINITY, interval.upper());
    assertEquals(Z, pivot(interval.lower(), 0.2, 1e-4, 0.01, 1e-4, 0), 1e-9);
  }

  @Test
  void aNumeratorThatMayBeZeroLeavesZeroItself() {
    RatioInterval interval = of(0.01, 1e-4, 0.05, 1e-6, 0);
    assertEquals(0, interval.lower());
    assertEquals(Z, pivot(interval.upper(), 0.01, 1e-4, 0.05, 1e-6, 0), 1e-9);
  }

  @Test
  void aRatioThatIsSurelyNegativeHasNoLimitsAndNaNGivesNaN() {
    assertTrue(Double.isNaN(of(0.2, 1e-6, -0.05, 1e-6, 0).lower()));
    assertTrue(Double.isNaN(of(Double.NaN, 1e-6, 0.05, 1e-6, 0).lower()));
  }

  /** The interval is exact: of 20,000 draws nine in ten hold the true ratio (s.e. 0.2 points). */
  @Test
  void nineInTenIntervalsHoldTheTrueRatio() {
    Random random = new Random(11);
    int held = 0;
    for (int i = 0; i < 20_000; i++) {
      double shared = random.nextGaussian();
      double a = 0.3 + 0.04 * (0.6 * shared + 0.8 * random.nextGaussian());
      double b = 0.1 + 0.03 * shared;
      RatioInterval interval = of(a, 0.0016, b, 0.0009, 0.6 * 0.04 * 0.03);
      held += interval.lower() <= 3 && 3 <= interval.upper() ? 1 : 0;
    }
    assertEquals(0.9, held / 20_000.0, 0.008);
  }
}

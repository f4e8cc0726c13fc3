package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.junit.jupiter.api.Test;

class TruncatedNormalTest {
  private static double moment(double from, double to, double about, int power) {
    // Densities relative to the largest in the interval, so that far tails do not underflow.
    double top = from > 0 ? from : to < 0 ? to : 0;
    var gauss = new IterativeLegendreGaussIntegrator(20, 1e-12, 1e-14);
    double end = Math.min(to, top + 12);
    double start = Math.max(from, top - 12);
    return gauss.integrate(
        100_000, y -> Math.pow(y - about, power) * Math.exp((top * top - y * y) / 2), start, end);
  }

  private static void agrees(double from, double to, double tolerance) {
    double mass = moment(from, to, 0, 0);
    double mean = moment(from, to, 0, 1) / mass;
    double variance = moment(from, to, mean, 2) / mass;
    TruncatedNormal cut = TruncatedNormal.between(from, to);
    assertEquals(mean, cut.mean(), tolerance * Math.max(1, Math.abs(mean)), from + ".." + to);
    assertEquals(variance, cut.variance(), tolerance, from + ".." + to);
  }

  @Test
  void halfOfANormalHasItsKnownMoments() {
    // The half-normal law: mean sqrt(2 / pi), variance 1 - 2 / pi (Johnson, Kotz and Balakrishnan,
    // 1994, section 13.10.1).
    TruncatedNormal half = TruncatedNormal.between(0, 40);
    assertEquals(Math.sqrt(2 / Math.PI), half.mean(), 1e-12);
    assertEquals(1 - 2 / Math.PI, half.variance(), 1e-12);
  }

  @Test
  void agreesWithNumericalIntegrationNearAndFar() {
    for (double width : new double[] {0.3, 1, 3}) {
      for (double from = -5; from <= 5; from += 0.5) {
        agrees(from, from + width, 1e-6);
      }
      // The exponential law of the far tail is right to about 1/a^2 of its own small spread.
      agrees(8, 8 + width, 3e-3);
      agrees(-30, -30 + width, 1e-4);
    }
  }

  @Test
  void mirrorsAboutZero() {
    TruncatedNormal up = TruncatedNormal.between(0.4, 2.5);
    TruncatedNormal down = TruncatedNormal.between(-2.5, -0.4);
    assertEquals(up.mean(), -down.mean(), 1e-15);
    assertEquals(up.variance(), down.variance(), 1e-15);
    assertTrue(up.mean() > 0.4 && up.mean() < 2.5);
  }
}

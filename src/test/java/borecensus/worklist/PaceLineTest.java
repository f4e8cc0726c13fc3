package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class PaceLineTest {
  /** NIST StRD, linear regression, data set Norris (public domain). */
  private static final double[] X = {
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9,
    338, 447.5, 11.6, 556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779,
    11.1, 118.3, 229.2, 669.1, 448.9, 0.5
  };

  private static final double[] Y = {
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
    339.3, 448.9, 10.8, 557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9,
    10.2, 117.6, 228.9, 668.4, 449.2, 0.2
  };

  /** Certified by NIST StRD for Norris. */
  private static final double INTERCEPT = -0.262323073774029;

  private static final double SLOPE = 1.00211681802045;
  private static final double SLOPE_ERROR = 0.429796848199937E-03;
  private static final double RESIDUAL_SD = 0.884796396144373;

  @Test
  void withNoBeliefAboutSlopesItIsTheLeastSquaresLine() {
    PaceLine line = PaceLine.through(X, Y, RESIDUAL_SD * RESIDUAL_SD, 1e12);
    double last = X[X.length - 1];
    assertEquals(SLOPE, line.slope().value(), 1e-11);
    assertEquals(INTERCEPT + SLOPE * last, line.present().value(), 1e-9);
    assertEquals(SLOPE_ERROR, Math.sqrt(line.slope().variance()), 1e-12);
  }

  @Test
  void oneTestHasTheSlopesOfAllAndItsOwnLevel() {
    PaceLine line = PaceLine.through(new double[] {1.2}, new double[] {-0.04}, 4e-4, 2.5e-5);
    assertEquals(-0.04, line.present().value(), 1e-15);
    assertEquals(4e-4, line.present().variance(), 1e-15);
    assertEquals(0, line.slope().value(), 1e-15);
    assertEquals(2.5e-5, line.slope().variance(), 1e-15);
  }

  @Test
  void theSlopeIsDrawnToZeroTheMoreTheLessSlopesDiffer() {
    double[] x = {0, 1, 2};
    double[] y = {0, -0.1, -0.2};
    double strict = PaceLine.through(x, y, 1e-4, 1e-6).slope().value();
    double loose = PaceLine.through(x, y, 1e-4, 1e-2).slope().value();
    assertTrue(-0.1 < loose && loose < strict && strict < 0);
  }

  @Test
  void readingsThatAreMissingAreLeftOut() {
    double[] x = {0, 0.5, 1};
    PaceLine gap = PaceLine.through(x, new double[] {0.01, Double.NaN, -0.02}, 1e-4, 1e-3);
    PaceLine two = PaceLine.through(new double[] {0, 1}, new double[] {0.01, -0.02}, 1e-4, 1e-3);
    assertEquals(two, gap);
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

/**
 * Readings of coarse dials as intervals. Values are scaled to small residuals, where the dial's
 * marks are as evenly spaced in the logarithm as on the dial to four digits.
 */
class DialSitesTest {
  private static final double SCALE = 1e-4;

  /** One test of as many cylinders as there are values; the level is all but unknown. */
  private static HealthyModel oneTest(double[] values, double step, double sd, double levelSd) {
    double half = SCALE * step / 2;
    double[] residual = Arrays.stream(values).map(v -> SCALE * v).toArray();
    EngineReadings readings =
        new EngineReadings(
            "E",
            "F",
            true,
            new double[] {1},
            new String[] {"G"},
            new TestConditions[1],
            new double[][] {residual},
            new double[] {half * half / 3},
            new double[] {half});
    double level = SCALE * SCALE * levelSd * levelSd;
    double reading = SCALE * SCALE * sd * sd + half * half / 3;
    return new HealthyModel(
        readings,
        new double[] {1},
        new double[][] {residual},
        new double[][] {{level}},
        1e-30,
        new double[] {reading});
  }

  /** Posterior mean and standard deviation of the level of the test. */
  private static double[] level(HealthyModel model) {
    DialSites sites = DialSites.of(model);
    double prior = 1 / model.levelCovariance()[0][0];
    double precision = prior;
    double weighted = 0;
    for (int c = 0; c < sites.residual()[0].length; c++) {
      precision += 1 / sites.variance()[0][c];
      weighted += sites.residual()[0][c] / sites.variance()[0][c];
    }
    return new double[] {weighted / precision / SCALE, Math.sqrt(1 / precision) / SCALE};
  }

  @Test
  void levelOfRoundedReadingsIsThatOfTheIntervalCensoredLikelihood() {
    // Twelve readings rounded to 5: maximum of the interval-censored normal likelihood in 30 digits
    // by python3-mpmath 1.2.1, mu 178.74464568, sigma 3.883234313; standard error of mu 1.1958436
    // by
    // R 4.2.2, survreg of survival 3.5.3 (with sigma estimated, which moves it little).
    double[] readings = {180, 175, 180, 185, 175, 180, 170, 180, 185, 175, 180, 180};
    double[] centred = Arrays.stream(readings).map(r -> r - 180).toArray();
    double[] level = level(oneTest(centred, 5, 3.883234312684, 1e3));
    assertEquals(178.74464568 - 180, level[0], 0.003);
    assertEquals(1.195843594661880, level[1], 0.01);
  }

  @Test
  void aStepOfThreeStandardDeviationsLeavesTheLevelAsUncertainAsItIs() {
    // Four cylinders on one mark: the level lies anywhere about that mark. Taken as independent
    // uniform errors it would seem known to a quarter of that.
    double[] same = {0, 0, 0, 0};
    double exact = exactLevelSd(same, 6, 2, 4);
    double taken = level(oneTest(same, 6, 2, 4))[1];
    double sheppard = 1 / Math.sqrt(1.0 / 16 + 4 / (4 + 3.0));
    assertEquals(exact, taken, 0.04 * exact);
    assertTrue(Math.abs(sheppard - exact) > 2 * Math.abs(taken - exact), sheppard + " " + exact);
  }

  /** By numerical integration over the level. */
  private static double exactLevelSd(double[] marks, double step, double sd, double levelSd) {
    NormalDistribution noise = new NormalDistribution(0, sd);
    NormalDistribution prior = new NormalDistribution(0, levelSd);
    var gauss = new IterativeLegendreGaussIntegrator(20, 1e-10, 1e-12);
    double[] moments = new double[3];
    for (int power = 0; power < 3; power++) {
      int k = power;
      moments[k] =
          gauss.integrate(
              100_000,
              m -> {
                double density = prior.density(m) * Math.pow(m, k);
                for (double mark : marks) {
                  density *= noise.probability(mark - step / 2 - m, mark + step / 2 - m);
                }
                return density;
              },
              -8 * levelSd,
              8 * levelSd);
    }
    double mean = moments[1] / moments[0];
    return Math.sqrt(moments[2] / moments[0] - mean * mean);
  }

  @Test
  void fineDialsAreLeftToTheirVariance() {
    HealthyModel model = oneTest(new double[] {1, -2, 0.5}, 1, 3, 4);
    DialSites sites = DialSites.of(model);
    assertArrayEquals(model.residual()[0], sites.residual()[0]);
    assertEquals(model.readingVariance()[0], sites.variance()[0][1]);
  }

  @Test
  void aCylinderThatWasNotReadStaysSo() {
    HealthyModel model = oneTest(new double[] {0, Double.NaN, 6}, 6, 2, 4);
    DialSites sites = DialSites.of(model);
    assertTrue(Double.isNaN(sites.residual()[0][1]));
    assertTrue(Double.isFinite(sites.residual()[0][0]) && sites.variance()[0][2] > 0);
  }

  @Test
  void aFarReadingStaysFarAndFinite() {
    DialSites sites = DialSites.of(oneTest(new double[] {0, 0, 0, -80}, 6, 2, 4));
    assertTrue(sites.residual()[0][3] < -0.5 * 80 * SCALE, "" + sites.residual()[0][3]);
    assertTrue(sites.variance()[0][3] > 0 && Double.isFinite(sites.variance()[0][3]));
  }
}

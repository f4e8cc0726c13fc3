package borecensus.evaluate;

import borecensus.norms.VarianceComponents;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;

/**
 * The exact fault probability when test and reading noise follow Student's t, by Gibbs sampling.
 *
 * <p>Student's t with n degrees of freedom and scale s is normal with a variance drawn from n s^2 /
 * chi-square(n) (Andrews and Mallows, 1974, J. R. Stat. Soc. B 36:99-102). Given those variances
 * the likelihood of every fault is exact and closed, so the chain moves between fault, noise and
 * variances, and the probability is the mean of the closed ones (Gelfand and Smith, 1990, J. Am.
 * Stat. Assoc. 85:398-409). Noise given the rest is drawn by conditional simulation: a draw from
 * the prior, moved by its covariance with what it fails to explain.
 */
final class HeavyTailChain {
  private static final int BURN_IN = 30;
  private static final int KEPT = 120;

  private final TrueEngine engine;
  private final VarianceComponents v;
  private final double share;
  private final ReadingLaw usual;
  private final double[] rounding;
  private final List<FaultCase> cases;
  private final RandomGenerator random;
  private final double[] testVariance;
  private final double[][] readingVariance;

  private HeavyTailChain(TrueEngine engine, TrueFleet fleet, int seed) {
    this.engine = engine;
    TrueFamily family = fleet.familyOf(engine);
    v = family.components();
    share = family.faultShare();
    usual = ReadingLaw.ofTruth(engine, fleet);
    cases = FaultCase.all(family.family(), engine.usage(), fleet.plan(), FaultCase.Fineness.QUICK);
    random = new Well19937c(seed);
    int tests = usual.tests();
    rounding = new double[tests];
    testVariance = new double[tests];
    readingVariance = new double[tests][usual.cylinders()];
    for (int t = 0; t < tests; t++) {
      rounding[t] = ReadingLaw.roundingVariance(engine.history().tests().get(t), fleet);
      testVariance[t] = v.test();
      Arrays.fill(readingVariance[t], v.reading());
    }
  }

  /** The probability of a fault; the seed makes the chain repeatable. */
  static double probability(TrueEngine engine, TrueFleet fleet, int seed) {
    return new HeavyTailChain(engine, fleet, seed).run();
  }

  private double run() {
    double sum = 0;
    for (int i = 0; i < BURN_IN + KEPT; i++) {
      SolvedLaw law = new SolvedLaw(law());
      FaultOdds odds = FaultOdds.of(law, cases);
      double p = FaultOdds.probability(odds.logRatio(), share);
      sum += i < BURN_IN ? 0 : p;
      double[][] shift =
          random.nextDouble() < p
              ? odds.shiftAt(random.nextDouble(), usual.tests(), usual.cylinders())
              : new double[usual.tests()][usual.cylinders()];
      drawVariances(law, shift);
    }
    return sum / KEPT;
  }

  /** The law under the present variances. */
  private ReadingLaw law() {
    int tests = usual.tests();
    double[][] level = new double[tests][];
    double[][] reading = new double[tests][usual.cylinders()];
    for (int t = 0; t < tests; t++) {
      level[t] = usual.levelCovariance()[t].clone();
      level[t][t] += testVariance[t] - v.test();
      for (int c = 0; c < reading[t].length; c++) {
        reading[t][c] = readingVariance[t][c] + rounding[t];
      }
    }
    return new ReadingLaw(usual.residual(), level, usual.cylinderVariance(), reading);
  }

  private void drawVariances(SolvedLaw law, double[][] shift) {
    Draw draw = new Draw(shift);
    double[][] moved = law.weigh(draw.unexplained, usual.tests());
    for (int t = 0; t < moved.length; t++) {
      double all = 0;
      for (int c = 0; c < moved[t].length; c++) {
        all += moved[t][c];
        double noise = draw.noise[t][c] + readingVariance[t][c] * moved[t][c];
        readingVariance[t][c] = variance(noise, v.reading());
      }
      testVariance[t] = variance(draw.testNoise[t] + testVariance[t] * all, v.test());
    }
  }

  /** Readings drawn from the law, and what they leave of the real ones less this shift. */
  private final class Draw {
    private final double[] testNoise = new double[usual.tests()];
    private final double[][] noise = new double[usual.tests()][usual.cylinders()];
    private final double[][] unexplained = new double[usual.tests()][usual.cylinders()];

    Draw(double[][] shift) {
      double offset = normal(v.engine());
      double slope = normal(v.slope());
      double[] lasting = new double[usual.cylinders()];
      for (int c = 0; c < lasting.length; c++) {
        lasting[c] = normal(v.cylinder());
      }
      for (int t = 0; t < testNoise.length; t++) {
        testNoise[t] = normal(testVariance[t]);
        double weather = normal(engine.weatherVariance()[t]);
        double level = offset + slope * engine.usage()[t] + weather + testNoise[t];
        for (int c = 0; c < lasting.length; c++) {
          noise[t][c] = normal(readingVariance[t][c]);
          double drawn = level + lasting[c] + noise[t][c] + normal(rounding[t]);
          unexplained[t][c] = usual.residual()[t][c] - shift[t][c] - drawn;
        }
      }
    }
  }

  private double normal(double variance) {
    return Math.sqrt(variance) * random.nextGaussian();
  }

  /** A draw of the variance behind one noise value, whose variance over all is known. */
  private double variance(double noise, double overall) {
    double chiSquare = 0;
    for (int i = 0; i <= NoiseLaw.DEGREES; i++) {
      double g = random.nextGaussian();
      chiSquare += g * g;
    }
    // n s^2 with the scale s that gives the variance over all: n s^2 = (n - 2) x overall.
    return ((NoiseLaw.DEGREES - 2) * overall + noise * noise) / chiSquare;
  }
}

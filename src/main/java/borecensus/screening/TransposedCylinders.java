package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.norms.EngineResiduals;
import borecensus.norms.FleetNorms;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Finds tests in which two cylinders look written down in each other's place: exchanging the two
 * readings makes the test agree with the engine's other tests, and leaving them does not. Such a
 * test is put in doubt; nothing is ever exchanged.
 *
 * <p>With x the deviations of a test and m the mean deviations of the others, each about its test's
 * mean, exchanging i and j lowers the sum of squares by 2 (x_i - x_j)(m_j - m_i). Over twice the
 * reading variance that is a log likelihood ratio; it must beat the number of pairs, a prior of one
 * slip in a thousand tests (common practice, no source), and odds of twenty to one.
 */
public final class TransposedCylinders {
  private static final int FEWEST_TESTS = 3;
  private static final double SLIPS_PER_TEST = 1e-3;
  private static final double ODDS = 20;

  /** After the exchange both cylinders must lie this close to their usual deviation. */
  private static final double FITS_WITHIN_SD = 3;

  private TransposedCylinders() {}

  /** The history with every such test in doubt; at least three trusted tests are needed. */
  public static EngineHistory doubt(EngineHistory history, FleetNorms norms) {
    return history.trustedTests().size() < FEWEST_TESTS
        ? history
        : residuals(history, norms).history();
  }

  /** The same, with the model of the tests that are still trusted. */
  public static ModelledEngine believed(EngineHistory history, FleetNorms norms) {
    return residuals(history, norms).modelled(norms);
  }

  /** The same, with the residuals of the tests that are still trusted. */
  public static ResidualEngine residuals(EngineHistory history, FleetNorms norms) {
    ResidualEngine engine = ResidualEngine.of(history, norms);
    List<CompressionTest> trusted = history.trustedTests();
    if (trusted.size() < FEWEST_TESTS) {
      return engine;
    }
    EngineResiduals model = engine.residuals();
    double[][] pattern = pattern(model.residual());
    Totals totals = Totals.of(pattern);
    double neededLog = neededLog(pattern[0].length);
    Set<String> transposed = new HashSet<>();
    int first = trusted.size() - model.tests();
    for (int t = 0; t < model.tests(); t++) {
      if (looksTransposed(pattern[t], totals, neededLog, model.readingVariance()[t])) {
        transposed.add(trusted.get(first + t).testId());
      }
    }
    return transposed.isEmpty()
        ? engine
        : ResidualEngine.of(history.withTests(doubted(history, transposed)), norms);
  }

  private static List<CompressionTest> doubted(EngineHistory history, Set<String> transposed) {
    List<CompressionTest> tests = new ArrayList<>();
    for (CompressionTest test : history.tests()) {
      tests.add(
          transposed.contains(test.testId())
              ? test.withDoubts(List.of(Doubt.CYLINDERS_TRANSPOSED))
              : test);
    }
    return tests;
  }

  /** Deviations about the mean of each test. */
  private static double[][] pattern(double[][] residual) {
    double[][] pattern = new double[residual.length][];
    for (int t = 0; t < residual.length; t++) {
      double mean = mean(residual[t]);
      pattern[t] = new double[residual[t].length];
      for (int c = 0; c < pattern[t].length; c++) {
        pattern[t][c] = residual[t][c] - mean;
      }
    }
    return pattern;
  }

  private static double mean(double[] values) {
    double sum = 0;
    int count = 0;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        sum += value;
        count++;
      }
    }
    return count == 0 ? Double.NaN : sum / count;
  }

  /** Log likelihood ratio that an exchange must beat. */
  private static double neededLog(int cylinders) {
    double pairs = cylinders * (cylinders - 1) / 2.0;
    return Math.log(pairs * ODDS / SLIPS_PER_TEST);
  }

  private static boolean looksTransposed(
      double[] x, Totals totals, double neededLog, double readingVariance) {
    double variance = readingVariance * (1 + 1.0 / (totals.tests() - 1));
    double needed = 2 * variance * neededLog;
    // No pair gains more than the widest of both could.
    if (!(2 * range(x) * totals.rangeWithout(x) > needed)) {
      return false;
    }
    double[] usual = totals.meansWithout(x);
    double within = FITS_WITHIN_SD * Math.sqrt(variance);
    for (int i = 0; i < x.length; i++) {
      for (int j = i + 1; j < x.length; j++) {
        double gain = 2 * (x[i] - x[j]) * (usual[j] - usual[i]);
        boolean fits = Math.abs(x[i] - usual[j]) < within && Math.abs(x[j] - usual[i]) < within;
        if (gain > needed && fits) {
          return true;
        }
      }
    }
    return false;
  }

  private static double range(double[] values) {
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (double value : values) {
      lowest = value < lowest ? value : lowest;
      highest = value > highest ? value : highest;
    }
    return highest - lowest;
  }

  /**
   * Deviations of each cylinder over all tests.
   *
   * @param sum by cylinder, over the tests that read it
   * @param count by cylinder, of these tests
   */
  private record Totals(int tests, double[] sum, int[] count) {

    static Totals of(double[][] pattern) {
      double[] sum = new double[pattern[0].length];
      int[] count = new int[sum.length];
      for (double[] test : pattern) {
        for (int c = 0; c < sum.length; c++) {
          if (!Double.isNaN(test[c])) {
            sum[c] += test[c];
            count[c]++;
          }
        }
      }
      return new Totals(pattern.length, sum, count);
    }

    /** Mean of each cylinder over the other tests; NaN where none read it. */
    double[] meansWithout(double[] test) {
      double[] means = new double[sum.length];
      for (int c = 0; c < means.length; c++) {
        means[c] = meanWithout(test, c);
      }
      return means;
    }

    /** The highest of these less the lowest. */
    double rangeWithout(double[] test) {
      double lowest = Double.POSITIVE_INFINITY;
      double highest = Double.NEGATIVE_INFINITY;
      for (int c = 0; c < sum.length; c++) {
        double mean = meanWithout(test, c);
        lowest = mean < lowest ? mean : lowest;
        highest = mean > highest ? mean : highest;
      }
      return highest - lowest;
    }

    private double meanWithout(double[] test, int c) {
      int own = Double.isNaN(test[c]) ? 0 : 1;
      int others = count[c] - own;
      double ofOthers = own == 0 ? sum[c] : sum[c] - test[c];
      return others == 0 ? Double.NaN : ofOthers / others;
    }
  }
}

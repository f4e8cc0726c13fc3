package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the published centiles promise, beside tolerance factors.
 *
 * <p>A tolerance limit, mean - k SD, holds a share of the population with a confidence (ISO
 * 16269-6). {@code family_norms} states no such limits: its centiles hold their share on average,
 * with the error of the mean in the variance (a prediction limit). They therefore lie inside the
 * tolerance limits, and the smaller the family the more so. {@code median_standard_error_pct} and
 * the number of engines are published so that an analyst can build a limit; the distribution-free
 * ones are checked in {@code SmallSampleTest}.
 */
class PublishedToleranceTest {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private static final double UNIT = 1e-5;

  /** So many values with exactly this mean and standard deviation, each one engine's one test. */
  private static PublishedFit engines(int n, double mean, double sd) {
    double[] scores =
        IntStream.range(0, n)
            .mapToDouble(i -> NORMAL.inverseCumulativeProbability((i + 0.5) / n))
            .toArray();
    double squares = 0;
    for (double score : scores) {
      squares += score * score;
    }
    double scale = sd / Math.sqrt(squares / (n - 1));
    List<PublishedFit.Value> values =
        IntStream.range(0, n)
            .mapToObj(
                i ->
                    new PublishedFit.Value(
                        String.format(Locale.ROOT, "%04d", i),
                        0,
                        "one",
                        mean + scale * scores[i],
                        0))
            .toList();
    return new PublishedFit(values, UNIT, 2 * sd * sd, 0, 0).after(40);
  }

  /**
   * NIST/SEMATECH e-Handbook 7.2.6.3: 43 wafers, mean 97.07, standard deviation 0.0268, 90 % with
   * confidence 99 %: k = 1.8752 (one side, the handbook's approximation) and 2.217 (two sides);
   * limits as reproduced from its inputs.
   */
  @Test
  void aLimitFromOurMeanOurDeviationAndTheFactorOfTheHandbookIsTheHandbooks() {
    PublishedFit fit = engines(43, 97.07, 0.0268);
    double mean = fit.mean(0);
    double sd = Math.sqrt(fit.engineVariance());

    // The factors are printed to four and three decimals, of 0.0268.
    assertEquals(97.120255, mean + 1.8752 * sd, 2e-6);
    assertEquals(97.019745, mean - 1.8752 * sd, 2e-6);
    assertEquals(97.010576, mean - 2.217 * sd, 2e-5);
    assertEquals(97.129424, mean + 2.217 * sd, 2e-5);
  }

  /**
   * One-sided factors k by the noncentral t distribution at 95 % confidence, R 4.2.2 by numerical
   * integration; k(10, 0.95) = 2.911 in Natrella (1963, NBS Handbook 91). Our centile is z sqrt(1 +
   * 1/n) standard deviations out.
   */
  @ParameterizedTest
  @CsvSource({
    "5, 4.20268074125617, 5.74108451722731", "10, 2.91096341307816, 3.98111784527306",
    "30, 2.21983753203505, 3.06390112623817", "100, 1.92653885051232, 2.68395785569129",
    "200, 1.83723564412342, 2.56973711640807", "1000, 1.72726326967127, 2.43014015324169"
  })
  void centilesLieInsideToleranceLimitsAndNearThemInLargeFamilies(int n, double k95, double k99) {
    PublishedFit fit = engines(n, 0, 1);
    FamilyNormRow row = FamilyNormTable.of(fit.norms()).get(0);
    double sd = Math.sqrt(fit.engineVariance()) * UNIT;
    double out95 = Math.log(row.medianKpa() / row.p05Kpa()) / sd;
    double out99 = Math.log(row.medianKpa() / row.p01Kpa()) / sd;

    // Logs of centiles 1e-5 apart carry a rounding of 1e-16 / 1e-5.
    assertEquals(-NORMAL.inverseCumulativeProbability(0.05) * Math.sqrt(1 + 1.0 / n), out95, 1e-5);
    assertEquals(-NORMAL.inverseCumulativeProbability(0.01) * Math.sqrt(1 + 1.0 / n), out99, 1e-5);
    assertTrue(out95 < k95 && out99 < k99);
    if (n == 5) {
      // A family of five that went by its own scatter alone would need twice the width.
      assertTrue(k99 > 2 * out99, k99 + " against " + out99);
    }
  }

  /**
   * From what is published a limit with confidence follows for all but small families: the error of
   * the mean, and that of the deviation, which n engines know with a log variance of 2 / n ({@link
   * PseudoEngines#logVarianceSd}): z_p + z_c sqrt(error^2 + z_p^2 / (2n)). It lacks terms of order
   * 1/n of the noncentral t, some 3 / n at 95 % and 4 / n at 99 %; 5 / n is allowed.
   */
  @ParameterizedTest
  @CsvSource({
    "100, 1.92653885051232, 2.68395785569129",
    "200, 1.83723564412342, 2.56973711640807",
    "1000, 1.72726326967127, 2.43014015324169"
  })
  void aLimitFromThePublishedErrorsComesNearTheToleranceFactor(int n, double k95, double k99) {
    PublishedFit fit = engines(n, 0, 1);
    double ofMean = fit.meanStandardError(0) / Math.sqrt(fit.engineVariance());

    assertEquals(k95, limit(0.95, ofMean, n), 5.0 / n);
    assertEquals(k99, limit(0.99, ofMean, n), 5.0 / n);
  }

  private static double limit(double share, double ofMean, int n) {
    double z = NORMAL.inverseCumulativeProbability(share);
    double ofDeviation = z * PseudoEngines.logVarianceSd(n) / 2;
    return z + NORMAL.inverseCumulativeProbability(0.95) * Math.hypot(ofMean, ofDeviation);
  }
}

package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * False shares of 2,000 made z-values: 1,900 evenly spaced quantiles of the null N(0.15, 1.25^2)
 * and 100 of N(4, 1), so that everything has a closed form.
 *
 * <p>fdr(z) = 0.95 f0(z) / f(z) is one minus a fault probability; the q-value of everything beyond
 * z is the tail rate Fdr(z) = 0.95 (1 - F0(z)) / (1 - F(z)), which is the mean of fdr there (Efron
 * 2010, <i>Large-Scale Inference</i>, eq. 5.29 to 5.31).
 */
class PublishedLocalRateTest {
  private static final int NULLS = 1900;
  private static final int ALL = 2000;

  private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);
  private static final NormalDistribution NULL = new NormalDistribution(null, 0.15, 1.25);
  private static final NormalDistribution OTHER = new NormalDistribution(null, 4, 1);

  private static double z(int index) {
    return index <= NULLS
        ? 0.15 + 1.25 * STANDARD.inverseCumulativeProbability((index - 0.5) / NULLS)
        : 4 + STANDARD.inverseCumulativeProbability((index - NULLS - 0.5) / (ALL - NULLS));
  }

  private static double localRate(double z) {
    double ofNull = 0.95 * NULL.density(z);
    return ofNull / (ofNull + 0.05 * OTHER.density(z));
  }

  private static double tailRate(double z) {
    double ofNull = 0.95 * (1 - NULL.cumulativeProbability(z));
    return ofNull / (ofNull + 0.05 * (1 - OTHER.cumulativeProbability(z)));
  }

  private static FalseShareTable table() {
    FalseShareCounts counts = new FalseShareCounts();
    for (int i = 1; i <= ALL; i++) {
      counts.add(1 - localRate(z(i)));
    }
    return FalseShareTable.of(counts);
  }

  private static int atLeast(double z) {
    int count = 0;
    for (int i = 1; i <= ALL; i++) {
      count += z(i) >= z ? 1 : 0;
    }
    return count;
  }

  /**
   * Number, z and fdr computed with R 4.2.2; last what locfdr 1.1-8 estimates from the values by
   * maximum likelihood, which is given to show how far a good estimate lies from the truth.
   */
  @ParameterizedTest
  @CsvSource({
    "1801, 2.17788835562417, 0.955442533103246, 0.968395278273598",
    "1900, 4.48374112652409, 0.0402438624627122, 0.0470707178122751",
    "1910, 2.68942088783187, 0.820027457947741, 0.816050252185828",
    "1925, 3.30969117606697, 0.441467377404805, 0.476866858531605",
    "1950, 3.98746653049193, 0.120151760016695, 0.145483074208883",
    "1975, 4.65883769273619, 0.0274608609415644, 0.0312530949228054",
    "2000, 6.5758293035489, 0.000765308001437654, 0.000865541694473788"
  })
  void qValuesAreTheTailRatesOfThePublishedMixture(
      int index, double z, double rate, double estimated) {
    assertEquals(z, z(index), 1e-9);
    assertEquals(rate, localRate(z), 1e-9);
    assertEquals(rate, estimated, 0.04);

    // The values are quantiles in the middle of their steps, and bins resolve odds to 0.2 %: the
    // mean over k of them is out by half a value in k at most.
    assertEquals(tailRate(z), table().qValue(1 - rate), 0.5 / atLeast(z) + 0.002);
  }

  @Test
  void markingUpToOneInTenMarksOneNullInTen() {
    FalseShareTable table = table();
    int marked = 0;
    int nulls = 0;
    for (int i = 1; i <= ALL; i++) {
      if (table.qValue(1 - localRate(z(i))) <= 0.10) {
        marked++;
        nulls += i <= NULLS ? 1 : 0;
      }
    }

    // One value more or less is 1 / 78.
    assertTrue(marked > 70, marked + " marked");
    assertEquals(0.10, (double) nulls / marked, 1.0 / marked);
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A dial's rounding counts as the variance step^2 / 12 (Sheppard, 1898, Proc. Lond. Math. Soc. 29).
 * Expected: mean and variance of a normal reading of the given standard deviation rounded to the
 * nearest 5 kPa, by direct summation with R 4.2.2.
 *
 * <p>So it is in the estimation of variances; where the dial's step is long the likelihood of an
 * engine takes readings as intervals instead. The correction holds while a step is no longer than
 * two standard deviations of what scatters, and fails beyond: what then is left of the variance
 * depends on whether the mean lies on a mark or between two.
 */
class PublishedRoundingTest {
  private static final double STEP_KPA = 5;

  /** What the product makes of a variance of rounded readings about this mean, kPa squared. */
  private static double corrected(double meanKpa, double roundedVariance) {
    CompressionTest test = RandomFleet.test("E", 0, 1e5, "G", new double[] {meanKpa});
    EngineHistory history = new EngineHistory("V", "E", "F", "S", true, List.of(test));
    double[] known = EngineReadings.of(history, UsageAxis.KM, g -> STEP_KPA).roundingVariance();
    double perKpa = 1 / (meanKpa * meanKpa);
    double[][] one = {{1}};
    ComponentItem item =
        new ComponentItem(
            1e4,
            1,
            new double[][] {{roundedVariance * perKpa}},
            new double[][] {known},
            MatrixPattern.all(one));
    double[] start = {perKpa};
    return new ComponentScoring(start, new double[] {PublishedFit.VAGUE})
            .fit(List.of(item), start, 60)[0]
        / perKpa;
  }

  @ParameterizedTest
  @CsvSource({
    // mean, true sd, variance of the rounded, less step^2 / 12
    "180, 2.5, 8.13531906465829, 6.05198573132495",
    "181, 2.5, 8.27202497712859, 6.18869164379526",
    "182.5, 2.5, 8.5313477391611, 6.44801440582777",
    "180, 3, 11.0517333720738, 8.96840003874048",
    "181, 3, 11.0735668674164, 8.99023353408304",
    "182.5, 3, 11.114933294626, 9.03159996129266",
    "180, 5, 27.0833330590279, 24.9999997256946",
    "181, 5, 27.0833332485683, 24.999999915235",
    "182.5, 5, 27.0833336076388, 25.0000002743054",
    "180, 10, 102.083333333333, 100"
  })
  void upToTwoStandardDeviationsThisGivesBackTheTrueOne(
      double meanKpa, double sdKpa, double rounded, double sheppard) {
    double found = corrected(meanKpa, rounded);

    // Scoring stops at 1e-4 in the logarithm and closes in by squares.
    assertEquals(sheppard, found, 1e-6 * sheppard);
    assertEquals(sdKpa, Math.sqrt(found), 0.02 * sdKpa);
  }

  @ParameterizedTest
  @CsvSource({
    // true sd, variances of the rounded about 180, 181 and 182.5
    "1, 0.31048326629359, 1.56519142001921, 6.25002866515719",
    "1.5, 2.38956061137652, 3.65842818579626, 6.29290603593647",
    "2, 5.29575132742948, 5.83575843869394, 6.87102386290156"
  })
  void beyondThatItDependsOnWhereTheMeanLiesBetweenTheMarks(
      double sdKpa, double on, double near, double between) {
    double[] found = {
      Math.sqrt(corrected(180, on)),
      Math.sqrt(corrected(181, near)),
      Math.sqrt(corrected(182.5, between))
    };
    double lowest = Arrays.stream(found).min().orElseThrow();
    double highest = Arrays.stream(found).max().orElseThrow();

    assertTrue(lowest < 0.9 * sdKpa && highest > 1.09 * sdKpa, Arrays.toString(found));
  }

  /** Less than rounding alone would make: the estimate vanishes and is never negative. */
  @ParameterizedTest
  @CsvSource({"180, 0.31048326629359", "181, 1.56519142001921"})
  void aVarianceBelowThatOfTheStepLeavesNothing(double meanKpa, double rounded) {
    double found = corrected(meanKpa, rounded);

    assertTrue(found > 0 && found < 1e-4, "" + found);
  }
}

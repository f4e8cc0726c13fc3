package borecensus.statistics;

import static borecensus.ReferenceTable.number;
import static borecensus.ReferenceTable.numbers;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RobustScaleTest {
  /** Differences of decimal values are rounded in the last place only. */
  private static final double ROUNDING = 1e-12;

  static List<NamedCsvRecord> samples() {
    return ReferenceTable.resource(RobustScaleTest.class, "robust-samples.csv");
  }

  @ParameterizedTest
  @MethodSource("samples")
  void madAgreesWithR(NamedCsvRecord row) {
    double mad = RobustScale.mad(numbers(row, "values"));

    assertEquals(number(row, "mad_raw"), mad / RobustScale.MAD_TO_SIGMA, ROUNDING * 1000);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void qnIsTheExactOrderStatisticOfAllPairs(NamedCsvRecord row) {
    double[] x = numbers(row, "values");
    double scale = RobustScale.QN_TO_SIGMA * RobustScale.qnFactor(x.length);

    assertEquals(number(row, "qn_raw"), PairwiseDistances.qnOrderStatistic(x), ROUNDING);
    assertEquals(scale * number(row, "qn_raw"), RobustScale.qn(x), ROUNDING * 1000);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void qnWithTheFactorsOf1992LiesWithinSixPerMilleOfTheRefittedOnes(NamedCsvRecord row) {
    double refitted = number(row, "qn_default");

    assertEquals(refitted, RobustScale.qn(numbers(row, "values")), 0.0065 * refitted);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void snAgreesWithRobustbase(NamedCsvRecord row) {
    double[] x = numbers(row, "values");

    assertEquals(number(row, "sn_raw"), PairwiseDistances.snOrderStatistic(x), ROUNDING);
    // The package prints its factors for large odd n from the same formula.
    assertEquals(number(row, "sn_default"), RobustScale.sn(x), 1e-6 * number(row, "sn_default"));
  }

  /** Factors of Croux and Rousseeuw (1992), COMPSTAT 1, as coded in robustbase 0.95.0 (R 4.2.2). */
  @ParameterizedTest
  @CsvSource({
    "2, 0.399, 0.743",
    "3, 0.994, 1.851",
    "4, 0.512, 0.954",
    "5, 0.844, 1.351",
    "6, 0.611, 0.993",
    "7, 0.857, 1.198",
    "8, 0.669, 1.005",
    "9, 0.872, 1.131",
    "10, 0.72463768115942, 1",
    "11, 0.887096774193548, 1.08910891089109",
    "12, 0.759493670886076, 1",
    "13, 0.902777777777778, 1.07438016528926",
    "14, 0.786516853932584, 1",
    "15, 0.914634146341463, 1.06382978723404",
    "16, 0.808080808080808, 1",
    "17, 0.923913043478261, 1.05590062111801",
    "18, 0.825688073394495, 1",
    "19, 0.931372549019608, 1.04972375690608",
    "20, 0.840336134453782, 1",
    "25, 0.946969696969697, 1.03734439834025",
    "30, 0.887573964497042, 1",
    "50, 0.929368029739777, 1",
    "100, 0.963391136801541, 1",
    "101, 0.986328125, 1.00899100899101"
  })
  void smallSampleFactorsAreThoseOf1992(int n, double qn, double sn) {
    // Printed to 15 digits.
    assertEquals(qn, RobustScale.qnFactor(n), 1e-14);
    assertEquals(sn, RobustScale.snFactor(n), 1e-14);
  }

  @Property(seed = "1")
  void orderStatisticsEqualThoseOfSortingEveryPair(
      @ForAll @Size(min = 2, max = 30) List<@DoubleRange(min = -50, max = 50) Double> values) {
    double[] x = values.stream().mapToDouble(Double::doubleValue).toArray();

    assertEquals(bruteForceQn(x), PairwiseDistances.qnOrderStatistic(x));
    assertEquals(bruteForceSn(x), PairwiseDistances.snOrderStatistic(x));
  }

  @Property(seed = "1")
  void scalesDoNotDependOnTheOrderOfTheValues(
      @ForAll @Size(min = 2, max = 30) double[] x, @ForAll long seed) {
    double[] shuffled = Shuffled.of(x, seed);

    assertEquals(RobustScale.mad(x), RobustScale.mad(shuffled));
    assertEquals(RobustScale.qn(x), RobustScale.qn(shuffled));
    assertEquals(RobustScale.sn(x), RobustScale.sn(shuffled));
  }

  @Property(seed = "1", tries = 200)
  void scalesIgnoreAShiftAndFollowAFactor(
      @ForAll @Size(min = 2, max = 30) List<@DoubleRange(min = -50, max = 50) Double> values,
      @ForAll @DoubleRange(min = -1000, max = 1000) double shift) {
    double[] x = values.stream().mapToDouble(Double::doubleValue).toArray();
    double[] moved = Arrays.stream(x).map(value -> shift - 4 * value).toArray();

    // Shifting rounds at 1200 x 2^-53, times the scaling constants.
    assertEquals(4 * RobustScale.mad(x), RobustScale.mad(moved), 1e-10);
    assertEquals(4 * RobustScale.qn(x), RobustScale.qn(moved), 1e-10);
    assertEquals(4 * RobustScale.sn(x), RobustScale.sn(moved), 1e-10);
  }

  @Test
  void allThreeEstimateTheStandardDeviationOfManyNormalValues() {
    Random random = new Random(7);
    double[] x = DoubleStream.generate(() -> 3 * random.nextGaussian()).limit(20_001).toArray();

    // Standard errors relative to sigma at n = 20 001: MAD 0.8 %, Sn 0.7 %, Qn 0.6 %; four of them.
    assertEquals(3, RobustScale.mad(x), 3 * 0.033);
    assertEquals(3, RobustScale.sn(x), 3 * 0.027);
    assertEquals(3, RobustScale.qn(x), 3 * 0.023);
  }

  @Test
  void aDeadCylinderHardlyMovesTheScale() {
    double[] healthy = {1240, 1255, 1230, 1248, 1236, 1251};
    double[] oneDead = {1240, 1255, 1230, 0, 1236, 1251};

    assertTrue(RobustScale.qn(oneDead) < 3 * RobustScale.qn(healthy));
    assertTrue(RobustScale.mad(oneDead) < 3 * RobustScale.mad(healthy));
  }

  @Test
  void tiedValuesHaveNoSpread() {
    double[] tied = {5, 5, 5, 5, 9};

    assertEquals(0.0, RobustScale.mad(tied));
    assertEquals(0.0, RobustScale.qn(tied));
    assertEquals(0.0, RobustScale.sn(tied));
  }

  @Test
  void oneReadingOrAnAbsentOneSaysNothingAboutSpread() {
    for (double[] x :
        new double[][] {{}, {4}, {1, Double.NaN, 3}, {1, Double.POSITIVE_INFINITY, 3}}) {
      assertTrue(Double.isNaN(RobustScale.mad(x)));
      assertTrue(Double.isNaN(RobustScale.qn(x)));
      assertTrue(Double.isNaN(RobustScale.sn(x)));
    }
  }

  /**
   * NIST StRD NumAcc1 to NumAcc4: three or 1001 values, symmetric about the certified mean, all but
   * the middle one exactly one certified standard deviation away: median = mean and raw MAD =
   * standard deviation. Their offsets, up to 1e7, eat digits: 1e7 x 2^-52 = 2e-9.
   */
  @ParameterizedTest
  @CsvSource({
    "NumAcc1, 10000002, 1, 1", "NumAcc2, 1.2, 0.1, 500",
    "NumAcc3, 1000000.2, 0.1, 500", "NumAcc4, 10000000.2, 0.1, 500"
  })
  void largeOffsetsDoNotHurt(String dataset, double centre, double step, int pairs) {
    double[] x = numAcc(centre, step, pairs);
    NamedCsvRecord certified =
        ReferenceTable.openData("12_strd_univariate.csv").stream()
            .filter(row -> row.getField("dataset").equals(dataset))
            .findFirst()
            .orElseThrow();

    assertEquals(number(certified, "certified_mean"), Quantiles.median(x));
    assertEquals(
        number(certified, "certified_sd"), RobustScale.mad(x) / RobustScale.MAD_TO_SIGMA, 2e-9);
  }

  private static double[] numAcc(double centre, double step, int pairs) {
    double[] x = new double[2 * pairs + 1];
    x[0] = centre;
    for (int i = 0; i < pairs; i++) {
      x[2 * i + 1] = centre - step;
      x[2 * i + 2] = centre + step;
    }
    return x;
  }

  private static double bruteForceQn(double[] x) {
    int n = x.length;
    double[] distances = new double[n * (n - 1) / 2];
    int k = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        distances[k++] = Math.abs(x[i] - x[j]);
      }
    }
    Arrays.sort(distances);
    int h = n / 2 + 1;
    return distances[h * (h - 1) / 2 - 1];
  }

  private static double bruteForceSn(double[] x) {
    int n = x.length;
    double[] highMedians = new double[n];
    for (int i = 0; i < n; i++) {
      double centre = x[i];
      double[] distances = Arrays.stream(x).map(value -> Math.abs(value - centre)).toArray();
      Arrays.sort(distances);
      highMedians[i] = distances[n / 2];
    }
    Arrays.sort(highMedians);
    return highMedians[(n + 1) / 2 - 1];
  }
}

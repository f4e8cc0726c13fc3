package borecensus.printing;

import static borecensus.ReferenceTable.number;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.ReferenceTable;
import borecensus.physics.StandardAtmosphere;
import borecensus.printing.ExpectedReadings.Conditions;
import borecensus.printing.ExpectedReadings.Range;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ExpectedReadingsTest {
  private static final Conditions SEA_LEVEL = new Conditions(1013.25, 0);

  private static PrintedNorm norm(NormPoint point, Double... positions) {
    return new PrintedNorm(UsageMeter.KM, 40, List.of(point), List.of(positions));
  }

  static List<NamedCsvRecord> heights() {
    return ReferenceTable.resource(StandardAtmosphere.class, "isa-pressure.csv");
  }

  /**
   * Gauge pressure is proportional to ambient pressure, so what is expected at a height is what is
   * expected at sea level times the published pressure ratio of the standard atmosphere.
   */
  @ParameterizedTest
  @MethodSource("heights")
  void atAHeightTheRangeFollowsThePublishedStandardAtmosphere(NamedCsvRecord row) {
    PrintedNorm norm = norm(new NormPoint(0, 1200, 1100, 1310, 4, 8));
    double hpa = StandardAtmosphere.pressureHpa(number(row, "geopotential_m"));
    Range high = ExpectedReadings.of(norm, 0, 4, new Conditions(hpa, 0)).get(0);
    Range sea = ExpectedReadings.of(norm, 0, 4, SEA_LEVEL).get(0);
    double ratio = number(row, "geometric_hpa") / 1013.25;
    // The two standards differ by 0.0003 hPa, which is 0.0007 kPa of 1310 kPa at 5000 m.
    assertEquals(sea.lowKpa() * ratio, high.lowKpa(), 0.001);
    assertEquals(sea.usualKpa() * ratio, high.usualKpa(), 0.001);
    assertEquals(sea.highKpa() * ratio, high.highKpa(), 0.001);
  }

  /**
   * 5,000 ft: 843.07 hPa (printed table of the US Standard Atmosphere 1976, 632.4 mmHg; from
   * memory). A letter to a trade paper says that 120 psi at sea level reads about 100 there.
   */
  @Test
  void aHundredAndTwentyAtSeaLevelIsAboutAHundredAtFiveThousandFeet() {
    double hpa = StandardAtmosphere.pressureHpa(StandardAtmosphere.geopotentialHeightM(1524));
    assertEquals(843.07, hpa, 0.05);
    assertEquals(99.85, new Conditions(hpa, 0).shownKpa(120), 0.02);
  }

  @Test
  void aGaugeThatReadsHighIsExpectedToReadHigh() {
    PrintedNorm norm = norm(new NormPoint(0, 1200, 1100, 1310, 4, 8));
    assertEquals(
        1236, ExpectedReadings.of(norm, 0, 4, new Conditions(1013.25, 3)).get(0).usualKpa(), 1e-9);
  }

  @Test
  void eachCylinderIsExpectedAtItsPosition() {
    PrintedNorm norm = norm(new NormPoint(0, 1000, 950, 1050, 4, 8), 1.01, 0.99);
    List<Range> ranges = ExpectedReadings.of(norm, 0, 2, SEA_LEVEL);
    assertEquals(1010, ranges.get(0).usualKpa(), 1e-9);
    assertEquals(990, ranges.get(1).usualKpa(), 1e-9);
  }

  /** Median range of n normals: 0.9539, 1.9783, 2.7908 (R 4.2.2, qtukey(0.5, n, Inf)). */
  @Test
  void theScatterOfACylinderFollowsFromTheMedianSpread() {
    double[] medianRange = {0, 0, 0.95387255, 0, 1.97832049, 0, 0, 0, 2.79084076};
    for (int n : new int[] {2, 4, 8}) {
      double spreadPct = 100 * (1 - Math.exp(-0.02 * medianRange[n]));
      double variance = 0.02 * 0.02 * (n - 1) / n;
      assertEquals(variance, ExpectedReadings.cylinderVariance(spreadPct, n), 1e-10);
    }
  }

  @Test
  void anEngineOfOneCylinderScattersAsItsLevelDoes() {
    NormPoint point = new NormPoint(0, 1000, 900, 1100, Double.NaN, Double.NaN);
    Range range = ExpectedReadings.of(norm(point), 0, 1, SEA_LEVEL).get(0);
    assertEquals(900, range.lowKpa(), 1e-6);
    assertEquals(1100, range.highKpa(), 1e-6);
  }

  /**
   * Drawn engines: levels scatter by 4 %, cylinders by 2 % about them. Their published figures, put
   * back together, must leave 5 in 100 single readings on either side. With 200,000 readings of
   * 50,000 independent engines the share has a standard error below 0.1 %.
   */
  @Test
  void fiveInAHundredDrawnReadingsLieBelowLowAndFiveAboveHigh() {
    Random random = new Random(20260331);
    int engines = 50_000;
    int n = 4;
    double[] levels = new double[engines];
    double[] spreads = new double[engines];
    double[] readings = new double[engines * n];
    for (int e = 0; e < engines; e++) {
      double level = Math.log(1200) + 0.04 * random.nextGaussian();
      double[] logs = random.doubles(n).map(u -> level + 0.02 * random.nextGaussian()).toArray();
      levels[e] = Math.exp(Arrays.stream(logs).average().orElseThrow());
      double low = Arrays.stream(logs).min().orElseThrow();
      double high = Arrays.stream(logs).max().orElseThrow();
      spreads[e] = 100 * (1 - Math.exp(low - high));
      for (int c = 0; c < n; c++) {
        readings[e * n + c] = Math.exp(logs[c]);
      }
    }
    Arrays.sort(levels);
    Arrays.sort(spreads);
    NormPoint point =
        new NormPoint(
            0,
            levels[engines / 2],
            levels[engines / 20],
            levels[engines - engines / 20],
            spreads[engines / 2],
            spreads[engines - engines / 20]);
    Range range = ExpectedReadings.of(norm(point), 0, n, SEA_LEVEL).get(0);
    double below = Arrays.stream(readings).filter(r -> r < range.lowKpa()).count();
    double above = Arrays.stream(readings).filter(r -> r > range.highKpa()).count();
    assertTrue(Math.abs(below / readings.length - 0.05) < 0.004, "below " + below);
    assertTrue(Math.abs(above / readings.length - 0.05) < 0.004, "above " + above);
  }
}

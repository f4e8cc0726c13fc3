package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.statistics.NormalRange;
import java.util.Arrays;

/**
 * The last trusted test against the family.
 *
 * @param usage km or engine hours, as the family is judged; NaN when the sheet carries none
 * @param levelPct mean reading against the expected mean of the cylinders read, gauge offset
 *     removed, per cent
 * @param levelZ the log of the same ratio in standard deviations of a healthy engine's test, with
 *     the errors of norm and gauge
 * @param spreadPct 100 (highest - lowest) / highest; NaN with fewer than two readings
 * @param spreadZ normal score of the range of the log readings, position effects removed, among
 *     those of healthy tests with as many readings
 * @param lowestCylinder number of the lowest reading; 0 without a test
 */
public record LastTest(
    double usage,
    double levelPct,
    double levelZ,
    double spreadPct,
    double spreadZ,
    int lowestCylinder) {

  /** No trusted test. */
  static final LastTest NONE =
      new LastTest(Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN, 0);

  static LastTest of(CompressionTest test, HealthyModel model, FamilyNorm norm, FleetNorms norms) {
    int last = model.tests() - 1;
    double[] kpa = test.referenceKpa();
    return new LastTest(
        norm.axis().usageOf(test),
        100
            * (ratio(
                    kpa,
                    model.usage()[last],
                    norm,
                    norms.gauge(test.gaugeId()).offsetLogOn(test.testedAt().toLocalDate()))
                - 1),
        model.level(last) / Math.sqrt(model.levelVariance(last)),
        spreadPct(kpa),
        spreadZ(model, last),
        lowest(kpa));
  }

  /** The same without scores, for a family that is not judged. */
  LastTest withoutScores() {
    return new LastTest(usage, levelPct, Double.NaN, spreadPct, Double.NaN, lowestCylinder);
  }

  private static double ratio(double[] kpa, double usage, FamilyNorm norm, double gaugeOffset) {
    double read = 0;
    double expected = 0;
    for (int c = 0; c < kpa.length; c++) {
      if (!Double.isNaN(kpa[c])) {
        read += kpa[c];
        expected += Math.exp(norm.curve().at(usage) + norm.position(c) + gaugeOffset);
      }
    }
    return read / expected;
  }

  static double spreadPct(double[] kpa) {
    double[] read = Arrays.stream(kpa).filter(k -> !Double.isNaN(k)).toArray();
    double highest = Arrays.stream(read).max().orElse(Double.NaN);
    double lowest = Arrays.stream(read).min().orElse(Double.NaN);
    return read.length < 2 || highest <= 0 ? Double.NaN : 100 * (highest - lowest) / highest;
  }

  private static double spreadZ(HealthyModel model, int last) {
    double[] read = Arrays.stream(model.residual()[last]).filter(r -> !Double.isNaN(r)).toArray();
    if (read.length < 2) {
      return Double.NaN;
    }
    double range = Arrays.stream(read).max().orElse(0) - Arrays.stream(read).min().orElse(0);
    double sigma = Math.sqrt(model.cylinderVariance() + model.readingVariance()[last]);
    return NormalRange.normalScore(range / sigma, read.length);
  }

  private static int lowest(double[] kpa) {
    int lowest = 0;
    for (int c = 0; c < kpa.length; c++) {
      if (!Double.isNaN(kpa[c]) && (lowest == 0 || kpa[c] < kpa[lowest - 1])) {
        lowest = c + 1;
      }
    }
    return lowest;
  }
}

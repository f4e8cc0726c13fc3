package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import borecensus.statistics.NormalRange;

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
    double level = norm.curve().at(usage);
    for (int c = 0; c < kpa.length; c++) {
      if (!Double.isNaN(kpa[c])) {
        read += kpa[c];
        expected += Math.exp(level + norm.position(c) + gaugeOffset);
      }
    }
    return read / expected;
  }

  static double spreadPct(double[] kpa) {
    Extremes extremes = Extremes.of(kpa);
    double highest = extremes.highest();
    return extremes.count() < 2 || highest <= 0
        ? Double.NaN
        : 100 * (highest - extremes.lowest()) / highest;
  }

  private static double spreadZ(HealthyModel model, int last) {
    Extremes extremes = Extremes.of(model.residual()[last]);
    if (extremes.count() < 2) {
      return Double.NaN;
    }
    double range = extremes.highest() - extremes.lowest();
    double sigma = Math.sqrt(model.cylinderVariance() + model.readingVariance()[last]);
    return NormalRange.normalScore(range / sigma, extremes.count());
  }

  /** Of the values that were read. */
  private record Extremes(double lowest, double highest, int count) {

    static Extremes of(double[] values) {
      double lowest = Double.POSITIVE_INFINITY;
      double highest = Double.NEGATIVE_INFINITY;
      int count = 0;
      for (double value : values) {
        if (!Double.isNaN(value)) {
          lowest = Math.min(lowest, value);
          highest = Math.max(highest, value);
          count++;
        }
      }
      return new Extremes(lowest, highest, count);
    }
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

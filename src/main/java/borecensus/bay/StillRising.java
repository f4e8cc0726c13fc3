package borecensus.bay;

import borecensus.domain.CompressionTest;
import borecensus.norms.HealthyModel;
import borecensus.statistics.Quantiles;
import borecensus.worklist.PlainNumbers;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Cylinders that were perhaps still building when the cranking stopped: low against the others at
 * the last stroke, a smaller share of the last reading there at the first stroke than the others
 * had, and fewer strokes than a car maker's service manual asks for on low cylinders, which is ten.
 * Both differences must be more than two readings of healthy cylinders usually show: two standard
 * deviations of a reading and a cylinder for the level, three of the difference of two readings for
 * the share (common practice, no source).
 */
final class StillRising {
  private static final double STROKES_FOR_LOW_CYLINDERS = 10;
  private static final double LOW_BY_SD = 2;
  private static final double SLOW_BY_SD = 3;

  private StillRising() {}

  /**
   * The cylinders to crank longer.
   *
   * @param strokes as the sheet states them; NaN when it does not
   */
  static List<Repeat> of(JudgedSheet sheet, double strokes) {
    if (strokes >= STROKES_FOR_LOW_CYLINDERS || sheet.test().firstReferenceKpa().length == 0) {
      return List.of();
    }
    double[] logShares = logShares(sheet.test());
    HealthyModel model =
        HealthyModel.of(sheet.history(), sheet.test(), sheet.norm(), sheet.norms());
    double readingSd = Math.sqrt(model.readingVariance()[0]);
    double cylinderSd = Math.sqrt(model.readingVariance()[0] + model.cylinderVariance());
    List<Repeat> repeats = new ArrayList<>();
    for (int c = 0; c < logShares.length; c++) {
      double slower = medianOfOthers(logShares, c) - logShares[c];
      double missing = BesideOthers.missingKpa(sheet, c + 1) / sheet.test().referenceKpa()[c];
      if (slower > SLOW_BY_SD * Math.sqrt(2) * readingSd && missing > LOW_BY_SD * cylinderSd) {
        repeats.add(repeat(c, logShares));
      }
    }
    return repeats;
  }

  private static Repeat repeat(int index, double[] logShares) {
    String sentence =
        "Crank cylinder %s again with ten strokes, and one good cylinder likewise: at the first stroke it had %s of its last reading where the others had %s, so it may have been rising still."
            .formatted(
                index + 1,
                PlainNumbers.percent(100 * Math.exp(logShares[index])),
                PlainNumbers.percent(100 * Math.exp(medianOfOthers(logShares, index))));
    return new Repeat(Repeat.Kind.STILL_RISING, List.of(index + 1), sentence);
  }

  /** Log of the first-stroke reading over the last; NaN where either is missing or zero. */
  private static double[] logShares(CompressionTest test) {
    double[] first = test.firstReferenceKpa();
    double[] last = test.referenceKpa();
    return IntStream.range(0, last.length)
        .mapToDouble(
            c ->
                c < first.length && first[c] > 0 && last[c] > 0
                    ? Math.log(first[c] / last[c])
                    : Double.NaN)
        .toArray();
  }

  private static double medianOfOthers(double[] values, int index) {
    double[] others =
        IntStream.range(0, values.length)
            .filter(i -> i != index)
            .mapToDouble(i -> values[i])
            .filter(v -> !Double.isNaN(v))
            .toArray();
    return others.length == 0 ? Double.NaN : Quantiles.median(others);
  }
}

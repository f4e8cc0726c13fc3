package borecensus.report;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FamilyNormTable;
import borecensus.norms.UsageAxis;
import borecensus.norms.VarianceComponents;
import borecensus.report.picture.Chart;
import borecensus.report.picture.Ink;
import borecensus.report.picture.Scale;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * A family's centiles over usage, as curves behind the points of a chart: for the level of a test,
 * as published, or for one cylinder's reading, which scatters more.
 *
 * @param usage km or hours, rising
 * @param centilesKpa for each of {@link #SHARES}, by usage
 */
record NormCurves(double[] usage, double[][] centilesKpa) {
  private static final int POINTS = 33;
  private static final double[] SHARES = {0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99};
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  /** Centiles of the level, over the usages seen in the family and up to those given. */
  static NormCurves ofLevel(FamilyNorm norm, Window window) {
    double[] usage = window.points(POINTS);
    double[][] centiles = new double[SHARES.length][];
    for (int c = 0; c < SHARES.length; c++) {
      double share = SHARES[c];
      centiles[c] =
          Arrays.stream(usage)
              .map(u -> FamilyNormTable.levelKpa(norm, norm.axis().toUnits(u), share))
              .toArray();
    }
    return new NormCurves(usage, centiles);
  }

  /** Centiles of one reading, its position's effect taken out. */
  static NormCurves ofReading(FamilyNorm norm, Window window) {
    double[] usage = window.points(POINTS);
    double[][] centiles = new double[SHARES.length][usage.length];
    for (int i = 0; i < usage.length; i++) {
      double units = norm.axis().toUnits(usage[i]);
      double sd = readingSd(norm, units);
      for (int s = 0; s < SHARES.length; s++) {
        centiles[s][i] =
            Math.exp(norm.curve().at(units) + sd * NORMAL.inverseCumulativeProbability(SHARES[s]));
      }
    }
    return new NormCurves(usage, centiles);
  }

  private static double readingSd(FamilyNorm norm, double units) {
    VarianceComponents v = norm.components();
    double error = norm.meanStandardError(units);
    return Math.sqrt(v.engineAt(units) + v.test() + v.cylinder() + v.reading() + error * error);
  }

  /** An axis that takes in the curves and these points. */
  Scale up(String label, double[] points) {
    double[] all =
        IntStream.range(0, points.length + 2 * usage.length)
            .mapToDouble(
                i ->
                    i < points.length
                        ? points[i]
                        : centilesKpa[i % 2 == 0 ? 0 : SHARES.length - 1][(i - points.length) / 2])
            .filter(Double::isFinite)
            .toArray();
    double low = Arrays.stream(all).min().orElse(0);
    double high = Arrays.stream(all).max().orElse(1);
    double margin = Math.max(1, 0.06 * (high - low));
    return new Scale(label, Math.max(0, low - margin), high + margin, 1);
  }

  /** The axis of usage. */
  Scale across(UsageAxis axis) {
    double from = usage[0];
    double to = usage[usage.length - 1];
    double margin = 0.03 * (to - from);
    return axis == UsageAxis.KM
        ? new Scale("distance, 1,000 km", Math.max(0, from - margin), to + margin, 1_000)
        : new Scale("engine hours", Math.max(0, from - margin), to + margin, 1);
  }

  /** Draws the curves. */
  void drawOn(Chart chart) {
    chart.band(Ink.BAND_98, usage, centilesKpa[0], centilesKpa[6]);
    chart.band(Ink.BAND_90, usage, centilesKpa[1], centilesKpa[5]);
    chart.band(Ink.BAND_50, usage, centilesKpa[2], centilesKpa[4]);
    chart.line(Ink.MEDIAN, 1.4, usage, centilesKpa[3]);
  }
}

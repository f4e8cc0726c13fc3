package borecensus.norms;

import borecensus.statistics.Quantiles;
import borecensus.statistics.TheilSen;
import borecensus.statistics.TheilSenFit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;

/**
 * A first norm of one family that up to a quarter of faulty engines cannot pull far: position
 * effects and levels by medians, wear by the median of slopes between engines (Theil, 1950; Sen,
 * 1968) drawn to the expected wear by its standard error, variances as believed.
 */
final class RobustStart {
  /** More engines than this are thinned out for the slope, whose cost grows with their square. */
  private static final int MOST_SLOPE_ENGINES = 600;

  /** The log level of a family that nothing is known of: 20 % (common practice, no source). */
  static final double UNKNOWN_LEVEL_VARIANCE = 0.04;

  private RobustStart() {}

  static FamilyNorm of(FamilySample sample) {
    double[] positions = positions(sample);
    FamilyNorm blank =
        new FamilyNorm(
            sample.family(),
            sample.axis(),
            believed(sample, positions),
            Arrays.stream(positions).boxed().toList(),
            sample.priors().positionVariance(),
            sample.priors().spreads(),
            0,
            Collections.unmodifiableSortedMap(new TreeMap<>()),
            ObservedRange.NONE);
    return sample.feeders().isEmpty()
        ? blank
        : blank.withCurve(line(sample, positions)).withRange(range(sample));
  }

  /**
   * Where no engine of known usage was measured, what others of the family read stands in for its
   * level, else the maker's figure; NaN without either.
   */
  private static MeanCurve believed(FamilySample sample, double[] positions) {
    double[] levels =
        sample.engines().stream().mapToDouble(e -> point(e, positions).level()).toArray();
    double level =
        levels.length > 0 ? Quantiles.median(levels) : Math.log(sample.family().nominalKpa());
    return MeanCurve.constant(level, UNKNOWN_LEVEL_VARIANCE);
  }

  static ObservedRange range(FamilySample sample) {
    double[] usages = sample.usages();
    return new ObservedRange(
        sample.feeders().size(),
        sample.tests(),
        Arrays.stream(usages).min().orElseThrow(),
        Arrays.stream(usages).max().orElseThrow(),
        Quantiles.median(usages),
        0);
  }

  /** Middle over engines of each cylinder's mean contrast to its test's middle, centred. */
  private static double[] positions(FamilySample sample) {
    double[] positions = new double[sample.family().cylinders()];
    List<double[]> engines =
        sample.engines().stream().map(e -> meanContrasts(e, positions.length)).toList();
    for (int c = 0; c < positions.length; c++) {
      int cylinder = c;
      double[] contrasts =
          engines.stream().mapToDouble(e -> e[cylinder]).filter(d -> !Double.isNaN(d)).toArray();
      positions[c] = contrasts.length == 0 ? 0 : Quantiles.median(contrasts);
    }
    double mean = Arrays.stream(positions).average().orElse(0);
    double count = sample.engines().size();
    double shrink = count / (count + 4);
    return Arrays.stream(positions).map(p -> shrink * (p - mean)).toArray();
  }

  /** By cylinder, mean over the tests; NaN for one that was never read. */
  private static double[] meanContrasts(EngineReadings engine, int cylinders) {
    double[] sums = new double[cylinders];
    int[] read = new int[cylinders];
    for (double[] logs : engine.logKpa()) {
      double middle = Quantiles.median(EngineLevels.read(logs));
      for (int c = 0; c < cylinders; c++) {
        if (!Double.isNaN(logs[c])) {
          sums[c] += logs[c] - middle;
          read[c]++;
        }
      }
    }
    for (int c = 0; c < cylinders; c++) {
      sums[c] = read[c] == 0 ? Double.NaN : sums[c] / read[c];
    }
    return sums;
  }

  /** Usage and level of one engine, over its tests. */
  private record Point(double usage, double level) {}

  private static MeanCurve line(FamilySample sample, double[] positions) {
    List<Point> points =
        sample.feeders().stream()
            .map(f -> point(f.readings(), positions))
            .sorted(Comparator.comparingDouble(Point::usage).thenComparingDouble(Point::level))
            .toList();
    double slope = slope(thinned(points), sample.priors().wear());
    double origin =
        Quantiles.median(points.stream().mapToDouble(p -> p.level() - slope * p.usage()).toArray());
    double[] knots = CurveFit.knots(sample.usages());
    double variance = sample.priors().spreads().engine() * Math.PI / 2 / sample.feeders().size();
    double[][] covariance = Zeros.square(knots.length);
    for (double[] row : covariance) {
      Arrays.fill(row, variance);
    }
    return new MeanCurve(
        knots, Arrays.stream(knots).map(x -> origin + slope * x).toArray(), covariance);
  }

  private static Point point(EngineReadings engine, double[] positions) {
    double[] levels = new double[engine.tests()];
    for (int t = 0; t < levels.length; t++) {
      double[] logs = engine.logKpa()[t].clone();
      for (int c = 0; c < logs.length; c++) {
        logs[c] -= positions[c];
      }
      levels[t] = Quantiles.median(EngineLevels.read(logs));
    }
    return new Point(
        Arrays.stream(engine.usage()).average().orElseThrow(), Quantiles.median(levels));
  }

  private static List<Point> thinned(List<Point> points) {
    int stride = (points.size() + MOST_SLOPE_ENGINES - 1) / MOST_SLOPE_ENGINES;
    List<Point> thinned = new ArrayList<>();
    for (int i = 0; i < points.size(); i += stride) {
      thinned.add(points.get(i));
    }
    return thinned;
  }

  private static double slope(List<Point> points, Wear wear) {
    TheilSenFit fit =
        TheilSen.fit(
            points.stream().mapToDouble(Point::usage).toArray(),
            points.stream().mapToDouble(Point::level).toArray());
    double expected = -wear.pctPer100kKm() / 100;
    double error = fit.slopeStandardError();
    if (!(error > 0)) {
      return expected;
    }
    double priorWeight = 1e4 / (wear.sdPctPer100kKm() * wear.sdPctPer100kKm());
    double weight = 1 / (error * error);
    return (weight * fit.slope() + priorWeight * expected) / (weight + priorWeight);
  }
}

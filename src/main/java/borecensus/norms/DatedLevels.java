package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.statistics.Quantiles;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * The levels of one engine's tests, each the middle of its cylinders so that a faulty cylinder does
 * not move it, with the days on which they were taken.
 *
 * @param level by test, log residual against the norm
 * @param covariance of the levels of a healthy engine
 * @param curveVariance by test, error variance of the family's mean, a part of the covariance that
 *     the engines of a family share
 */
record DatedLevels(
    List<TestDay> days, double[] level, double[][] covariance, double[] curveVariance) {

  /** How much less the median of normal values is worth than their mean, for many values. */
  private static final double MEDIAN_VARIANCE = Math.PI / 2;

  /**
   * One engine's shift on one day against its other tests and the norm.
   *
   * @param log shift of the log level
   * @param variance of the shift, if the day is like any other
   * @param curveVariance part of it that engines of a family share
   */
  record Shift(double log, double variance, double curveVariance) {}

  /** The engine's last trusted tests, of which there must be at least one. */
  static DatedLevels of(EngineHistory history, FamilyNorm norm, FleetNorms norms) {
    HealthyModel model = HealthyModel.of(history, norm, norms);
    List<CompressionTest> trusted = history.trustedTests();
    int n = model.tests();
    double[] level = new double[n];
    double[] curve = new double[n];
    double[][] covariance = new double[n][];
    for (int t = 0; t < n; t++) {
      double cylinders =
          model.cylindersRead(t) / (model.cylindersRead(t) > 2 ? MEDIAN_VARIANCE : 1);
      level[t] = Quantiles.median(EngineLevels.read(model.residual()[t]));
      curve[t] = norm.curve().covariance(model.usage()[t], model.usage()[t]);
      covariance[t] = model.levelCovariance()[t].clone();
      for (int u = 0; u < n; u++) {
        covariance[t][u] += model.cylinderVariance() / norm.family().cylinders();
      }
      covariance[t][t] += model.readingVariance()[t] / cylinders;
    }
    return new DatedLevels(
        trusted.subList(trusted.size() - n, trusted.size()).stream().map(TestDay::of).toList(),
        level,
        covariance,
        curve);
  }

  /** Days on which the engine was tested. */
  Set<TestDay> distinctDays() {
    return new TreeSet<>(days);
  }

  /** The same without the tests of these days. */
  DatedLevels without(Set<TestDay> left) {
    int[] kept =
        IntStream.range(0, level.length).filter(t -> !left.contains(days.get(t))).toArray();
    return new DatedLevels(
        IntStream.of(kept).mapToObj(days::get).toList(),
        chosen(level, kept),
        IntStream.of(kept).mapToObj(t -> chosen(covariance[t], kept)).toArray(double[][]::new),
        chosen(curveVariance, kept));
  }

  private static double[] chosen(double[] values, int[] kept) {
    return IntStream.of(kept).mapToDouble(t -> values[t]).toArray();
  }

  /** The shift on each of its days. */
  SortedMap<TestDay, Shift> shifts() {
    SortedMap<TestDay, Shift> shifts = new TreeMap<>();
    if (!days.isEmpty()) {
      double[][] precision = Cholesky.of(covariance).inverse();
      distinctDays().forEach(day -> shifts.put(day, shift(day, precision)));
    }
    return shifts;
  }

  /**
   * The generalised least squares estimate of a shift common to the engine's tests of this day:
   * (u'Wz) / (u'Wu) with u one on that day and W the inverse covariance.
   */
  private Shift shift(TestDay day, double[][] precision) {
    double score = 0;
    double information = 0;
    double curve = 0;
    for (int t = 0; t < level.length; t++) {
      if (days.get(t).equals(day)) {
        curve = Math.max(curve, curveVariance[t]);
        for (int u = 0; u < level.length; u++) {
          score += precision[t][u] * level[u];
          information += days.get(u).equals(day) ? precision[t][u] : 0;
        }
      }
    }
    return new Shift(score / information, 1 / information, curve);
  }
}

package borecensus.printing;

import borecensus.physics.ReferencePressure;
import borecensus.statistics.NormalRange;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * What the cylinders of a healthy engine should read on one gauge at one place.
 *
 * <p>On the logarithm, a reading is the engine's level plus its cylinder's deviation from the
 * engine's mean. The level's scatter is that between the published centiles; that of a cylinder
 * follows from the published median spread of n cylinders, which is sigma times the median range of
 * n normal readings ({@link NormalRange}); about the engine's own mean a cylinder scatters by
 * sigma^2 (1 - 1/n), independent of that mean. So the limits are those of single readings, which
 * scatter more than levels do.
 */
final class ExpectedReadings {
  /** How many standard deviations leave 5 in 100 readings on one side. */
  private static final double WIDTH =
      new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.95);

  private ExpectedReadings() {}

  /** Gauge kilopascal: 5, 50 and 95 in 100 readings of healthy engines are lower. */
  record Range(double lowKpa, double usualKpa, double highKpa) {}

  /**
   * The place and the instrument.
   *
   * @param ambientHpa ambient pressure to be expected there
   * @param gaugeOffsetPct how much the gauge reads high; 0 when not known
   */
  record Conditions(double ambientHpa, double gaugeOffsetPct) {
    /** What the gauge shows there of a pressure at reference conditions. */
    double shownKpa(double referenceKpa) {
      return ReferencePressure.fromReferenceKpa(referenceKpa, ambientHpa)
          * (1 + gaugeOffsetPct / 100);
    }
  }

  /** By cylinder, cylinder 1 first. */
  static List<Range> of(PrintedNorm norm, double usage, int cylinders, Conditions conditions) {
    NormPoint point = norm.at(usage);
    double cylinder = cylinderVariance(point.spreadMedianPct(), cylinders);
    double down = scatter(Math.log(point.medianKpa() / point.p05Kpa()) / WIDTH, cylinder);
    double up = scatter(Math.log(point.p95Kpa() / point.medianKpa()) / WIDTH, cylinder);
    List<Range> ranges = new ArrayList<>();
    for (int c = 1; c <= cylinders; c++) {
      double usual = conditions.shownKpa(point.medianKpa() * norm.position(c));
      ranges.add(new Range(usual * Math.exp(-WIDTH * down), usual, usual * Math.exp(WIDTH * up)));
    }
    return ranges;
  }

  /** Log variance of one cylinder's reading about its engine's mean; 0 where it has no spread. */
  static double cylinderVariance(double spreadMedianPct, int cylinders) {
    if (cylinders < NormalRange.MIN_READINGS || Double.isNaN(spreadMedianPct)) {
      return 0;
    }
    double sigma = -Math.log1p(-spreadMedianPct / 100) / NormalRange.quantile(0.5, cylinders);
    return sigma * sigma * (1 - 1.0 / cylinders);
  }

  private static double scatter(double levelDeviation, double cylinderVariance) {
    return Math.sqrt(levelDeviation * levelDeviation + cylinderVariance);
  }
}

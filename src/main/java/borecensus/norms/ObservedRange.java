package borecensus.norms;

import java.io.Serializable;
import java.util.Arrays;

/**
 * What a family's norm rests on. Usages are in model units.
 *
 * @param engines original engines with trusted tests of known usage
 * @param tests their trusted tests
 * @param firstUsage lowest usage seen; NaN without engines
 * @param lastUsage highest usage seen; NaN without engines
 * @param usualUsage middle usage seen, taken for an engine whose own is not known
 * @param usageLevelVariance variance of the mean log reading over the usages seen: what not knowing
 *     an engine's usage costs
 */
public record ObservedRange(
    int engines,
    int tests,
    double firstUsage,
    double lastUsage,
    double usualUsage,
    double usageLevelVariance)
    implements Serializable {

  /** Nothing seen. */
  static final ObservedRange NONE = new ObservedRange(0, 0, Double.NaN, Double.NaN, 1, 0);

  /** The same range, with the variance of this curve over these usages. */
  ObservedRange along(MeanCurve curve, double[] usages) {
    double[] levels = Arrays.stream(usages).map(curve::at).toArray();
    double mean = Arrays.stream(levels).average().orElse(0);
    double variance = Arrays.stream(levels).map(v -> (v - mean) * (v - mean)).average().orElse(0);
    return new ObservedRange(engines, tests, firstUsage, lastUsage, usualUsage, variance);
  }
}

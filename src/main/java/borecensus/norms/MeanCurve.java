package borecensus.norms;

import borecensus.statistics.RandomEffects;
import java.io.Serializable;

/**
 * A family's mean log reading over usage: straight between knots, flat beyond the outer ones, with
 * its error covariance.
 *
 * @param knots the usages, in model units and rising, at which the curve may bend
 * @param logKpa mean log reading at each knot
 * @param covariance of the errors of these, one row for each knot
 */
public record MeanCurve(double[] knots, double[] logKpa, double[][] covariance)
    implements Serializable {

  public MeanCurve {
    knots = knots.clone();
    logKpa = logKpa.clone();
    covariance = covariance.clone();
    for (int k = 0; k < covariance.length; k++) {
      covariance[k] = covariance[k].clone();
    }
  }

  /** The same value everywhere. */
  static MeanCurve constant(double logKpa, double variance) {
    return new MeanCurve(
        new double[] {0, 1},
        new double[] {logKpa, logKpa},
        new double[][] {{variance, variance}, {variance, variance}});
  }

  /** Mean log reading; NaN for NaN. */
  public double at(double usage) {
    if (Double.isNaN(usage)) {
      return Double.NaN;
    }
    int k = interval(usage);
    double share = share(usage, k);
    return (1 - share) * logKpa[k] + share * logKpa[k + 1];
  }

  /** Covariance of the errors of the curve at two usages. */
  public double covariance(double first, double second) {
    int i = interval(first);
    int j = interval(second);
    double p = share(first, i);
    double q = share(second, j);
    return (1 - p) * ((1 - q) * covariance[i][j] + q * covariance[i][j + 1])
        + p * ((1 - q) * covariance[i + 1][j] + q * covariance[i + 1][j + 1]);
  }

  /** Covariances of the errors of the curve between usages; both triangles are filled. */
  double[][] covariances(double[] usage) {
    int n = usage.length;
    int[] below = new int[n];
    double[] share = new double[n];
    double[][] covariances = Zeros.square(n);
    for (int i = 0; i < n; i++) {
      below[i] = interval(usage[i]);
      share[i] = share(usage[i], below[i]);
      double[] low = covariance[below[i]];
      double[] high = covariance[below[i] + 1];
      for (int j = 0; j <= i; j++) {
        int k = below[j];
        double p = share[i];
        double q = share[j];
        covariances[i][j] =
            (1 - p) * ((1 - q) * low[k] + q * low[k + 1])
                + p * ((1 - q) * high[k] + q * high[k + 1]);
        covariances[j][i] = covariances[i][j];
      }
    }
    return covariances;
  }

  /** Slope from the first knot to the last, per unit, with the variance of its error. */
  RandomEffects.Normal overallSlope() {
    int last = knots.length - 1;
    double range = knots[last] - knots[0];
    double error = covariance[0][0] + covariance[last][last] - 2 * covariance[0][last];
    return new RandomEffects.Normal((logKpa[last] - logKpa[0]) / range, error / range / range);
  }

  MeanCurve raisedBy(double shift) {
    double[] raised = logKpa.clone();
    for (int k = 0; k < raised.length; k++) {
      raised[k] += shift;
    }
    return new MeanCurve(knots, raised, covariance);
  }

  /** Number of the knot below; the last interval for usages beyond. */
  int interval(double usage) {
    int k = 0;
    while (k < knots.length - 2 && usage >= knots[k + 1]) {
      k++;
    }
    return k;
  }

  /** How far between that knot and the next, 0 to 1. */
  double share(double usage, int k) {
    double share = (usage - knots[k]) / (knots[k + 1] - knots[k]);
    return Math.max(0, Math.min(1, share));
  }
}

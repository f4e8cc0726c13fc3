package borecensus.norms;

/**
 * How far out gauge offsets may be against the weighted mean of some of them, which is all that
 * matters to whoever fixes that mean: the fleet fixes the plain mean of its gauges at zero, and a
 * family's own level is known together with the mix of gauges that its engines met.
 */
final class GaugeErrors {
  private final EffectErrors errors;
  private final double[] weights;
  private final double[] mixErrors;
  private final double ofMix;

  /** Against the mix of these weights, which sum to one. */
  GaugeErrors(EffectErrors errors, double[] weights) {
    this.errors = errors;
    this.weights = weights.clone();
    this.mixErrors = errors.times(weights);
    this.ofMix = dot(weights, mixErrors);
  }

  /** Error variance of this gauge's offset less the mix's. */
  double ofGauge(int gauge) {
    return Math.max(0, errors.variance(gauge) - 2 * mixErrors[gauge] + ofMix);
  }

  /** Error variance of another mix's offset less this one's. */
  double ofMix(GaugeErrors other) {
    return Math.max(0, other.ofMix - 2 * dot(other.weights, mixErrors) + ofMix);
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

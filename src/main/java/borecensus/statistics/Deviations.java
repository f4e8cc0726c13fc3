package borecensus.statistics;

/** Distances from a centre. */
final class Deviations {
  private Deviations() {}

  /** The median of |x - centre|, unscaled; NaN if x is empty or holds NaN. */
  static double medianAbsolute(double[] x, double centre) {
    double[] distances = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      distances[i] = Math.abs(x[i] - centre);
    }
    return Quantiles.median(distances);
  }
}

package borecensus.statistics;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * For one n, everything in the integral of {@link NormalRange} that does not depend on w.
 *
 * <p>With q = Q(x + w), {@code Q^(n-1) - (Q - q)^(n-1)} is taken as {@code -Q^(n-1) expm1((n-1)
 * log1p(-q/Q))}, which keeps its digits when q is tiny.
 */
final class RangeGrid {
  private static final double STEP = 0.2;
  private static final double LOWEST = -13.0;
  private static final int NODES = 96;
  private static final double WIDEST = 16.0;
  private static final int MOMENT_NODES = 64;

  private final int others;
  private final double[] tail;
  private final double[] weight;
  private final double mean;
  private final double standardDeviation;

  private RangeGrid(int others, double[] tail, double[] weight) {
    this.others = others;
    this.tail = tail;
    this.weight = weight;
    GaussIntegrator integrator = new GaussIntegratorFactory().legendre(MOMENT_NODES, 0.0, WIDEST);
    // Integration by parts: E W = int S dw and E W^2 = int 2 w S dw.
    this.mean = integrator.integrate(this::survival);
    double meanSquare = integrator.integrate(w -> 2.0 * w * survival(w));
    this.standardDeviation = Math.sqrt(meanSquare - mean * mean);
  }

  static RangeGrid of(int n) {
    double[] tail = new double[NODES];
    double[] weight = new double[NODES];
    for (int k = 0; k < NODES; k++) {
      double x = node(k);
      tail[k] = NormalTail.probability(x);
      weight[k] = STEP * n * NormalTail.density(x) * Math.pow(tail[k], n - 1);
    }
    return new RangeGrid(n - 1, tail, weight);
  }

  /** The probability of a range above w; all digits in the upper tail. */
  double survival(double w) {
    double sum = 0.0;
    for (int k = 0; k < NODES; k++) {
      sum -= weight[k] * Math.expm1(others * logShareWithin(k, w));
    }
    return Math.min(1.0, sum);
  }

  /** The probability of a range of at most w; all digits in the lower tail. */
  double cdf(double w) {
    double sum = 0.0;
    for (int k = 0; k < NODES; k++) {
      sum += weight[k] * Math.exp(others * logShareWithin(k, w));
    }
    return Math.min(1.0, sum);
  }

  /** log [Q(x) - Q(x + w)] / Q(x): of a reading above x, that it is also below x + w. */
  private double logShareWithin(int k, double w) {
    return Math.log1p(-Math.min(1.0, NormalTail.probability(node(k) + w) / tail[k]));
  }

  double mean() {
    return mean;
  }

  double standardDeviation() {
    return standardDeviation;
  }

  private static double node(int k) {
    return LOWEST + STEP * k;
  }
}

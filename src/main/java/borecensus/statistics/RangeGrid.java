package borecensus.statistics;

import java.util.Arrays;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * For one n, everything in the integral of {@link NormalRange} that does not depend on w.
 *
 * <p>With q = Q(x + w) and s = 1 - q/Q, {@code Q^(n-1) - (Q - q)^(n-1)} is taken as {@code q
 * Q^(n-2) (1 + s + ... + s^(n-2))}, in which nothing is subtracted, so that it keeps its digits
 * when q is tiny.
 */
final class RangeGrid {
  private static final double STEP = 0.2;
  private static final double LOWEST = -13.0;
  private static final int NODES = 96;
  private static final double WIDEST = 16.0;
  private static final int MOMENT_NODES = 64;

  /** Of all grids, since it keeps the nodes, which take longer to find than to use. */
  private static final GaussIntegratorFactory INTEGRATORS = new GaussIntegratorFactory();

  private final int others;
  private final double[] tail;
  private final double[] weight;
  private final double mean;
  private final double standardDeviation;

  private RangeGrid(int others, double[] tail, double[] weight) {
    this.others = others;
    this.tail = tail;
    this.weight = weight;
    GaussIntegrator integrator = INTEGRATORS.legendre(MOMENT_NODES, 0.0, WIDEST);
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
    return survival(sharesBeyond(w));
  }

  /** The probability of a range of at most w; all digits in the lower tail. */
  double cdf(double w) {
    return cdf(sharesBeyond(w));
  }

  /** By node, Q(x + w) / Q(x): of a reading above x, that it is also above x + w. */
  double[] sharesBeyond(double w) {
    double[] beyond = new double[NODES];
    for (int k = 0; k < NODES; k++) {
      beyond[k] = Math.min(1.0, NormalTail.probability(node(k) + w) / tail[k]);
    }
    return beyond;
  }

  /** See {@link #survival(double)}. */
  double survival(double[] beyond) {
    double[] powers = new double[NODES];
    Arrays.fill(powers, 1.0);
    // Nodes within: they are independent of each other, powers are not.
    for (int i = 1; i < others; i++) {
      for (int k = 0; k < NODES; k++) {
        powers[k] = powers[k] * (1.0 - beyond[k]) + 1.0;
      }
    }
    double sum = 0.0;
    for (int k = 0; k < NODES; k++) {
      sum += weight[k] * beyond[k] * powers[k];
    }
    return Math.min(1.0, sum);
  }

  /** See {@link #cdf(double)}. */
  double cdf(double[] beyond) {
    double[] powers = weight.clone();
    for (int i = 0; i < others; i++) {
      for (int k = 0; k < NODES; k++) {
        powers[k] *= 1.0 - beyond[k];
      }
    }
    double sum = 0.0;
    for (double power : powers) {
      sum += power;
    }
    return Math.min(1.0, sum);
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

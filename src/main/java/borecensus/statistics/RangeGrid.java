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
 *
 * <p>At any w most nodes add nothing that a sum would keep. Those that do move downwards as w
 * grows, so that for each unit of w they are known from its ends.
 */
final class RangeGrid {
  private static final double STEP = 0.2;
  private static final double LOWEST = -13.0;
  private static final int NODES = 96;
  private static final double WIDEST = 16.0;
  private static final int MOMENT_NODES = 64;

  /** Nodes that add less than this share of a sum are left out. */
  private static final double NEGLIGIBLE_SHARE = 1e-18;

  /** Stands for 0, where a lower tail has no largest term. */
  private static final double NARROWEST = 0.01;

  /** Of all grids, since it keeps the nodes, which take longer to find than to use. */
  private static final GaussIntegratorFactory INTEGRATORS = new GaussIntegratorFactory();

  private final int others;
  private final double[] tail;
  private final double[] weight;

  /** By unit of w: the first node that counts, and the one after the last. */
  private final int[] first = new int[(int) WIDEST];

  private final int[] end = new int[(int) WIDEST];
  private final double mean;
  private final double standardDeviation;

  private RangeGrid(int others, double[] tail, double[] weight) {
    this.others = others;
    this.tail = tail;
    this.weight = weight;
    for (int unit = 0; unit < first.length; unit++) {
      first[unit] = counting(unit + 1.0)[0];
      end[unit] = counting(Math.max(unit, NARROWEST))[1];
    }
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

  /**
   * By node, Q(x + w) / Q(x): of a reading above x, that it is also above x + w.
   *
   * @param from the node of the first of these shares
   */
  record Beyond(int from, double[] shares) {}

  /** At the nodes that count. */
  Beyond sharesBeyond(double w) {
    int unit = (int) w;
    return unit < first.length ? beyond(w, first[unit], end[unit]) : beyond(w, 0, NODES);
  }

  private Beyond beyond(double w, int from, int to) {
    double[] shares = new double[to - from];
    for (int i = 0; i < shares.length; i++) {
      double further = NormalTail.probability(node(from + i) + w);
      shares[i] = Math.min(1.0, further / tail[from + i]);
    }
    return new Beyond(from, shares);
  }

  /** See {@link #survival(double)}. */
  double survival(Beyond beyond) {
    return Math.min(1.0, sum(upper(beyond)));
  }

  /** See {@link #cdf(double)}. */
  double cdf(Beyond beyond) {
    return Math.min(1.0, sum(lower(beyond)));
  }

  /** The terms of the upper tail, by node. */
  private double[] upper(Beyond beyond) {
    double[] shares = beyond.shares();
    double[] terms = new double[shares.length];
    Arrays.fill(terms, 1.0);
    // Nodes within: they are independent of each other, powers are not.
    for (int i = 1; i < others; i++) {
      for (int k = 0; k < terms.length; k++) {
        terms[k] = terms[k] * (1.0 - shares[k]) + 1.0;
      }
    }
    for (int k = 0; k < terms.length; k++) {
      terms[k] *= weight[beyond.from() + k] * shares[k];
    }
    return terms;
  }

  /** The terms of the lower tail, by node. */
  private double[] lower(Beyond beyond) {
    double[] shares = beyond.shares();
    double[] terms = Arrays.copyOfRange(weight, beyond.from(), beyond.from() + shares.length);
    for (int i = 0; i < others; i++) {
      for (int k = 0; k < terms.length; k++) {
        terms[k] *= 1.0 - shares[k];
      }
    }
    return terms;
  }

  private static double sum(double[] terms) {
    double sum = 0.0;
    for (double term : terms) {
      sum += term;
    }
    return sum;
  }

  /** The first node that counts in either tail at this w, and the one after the last. */
  private int[] counting(double w) {
    Beyond all = beyond(w, 0, NODES);
    int[] upper = counting(upper(all));
    int[] lower = counting(lower(all));
    return new int[] {Math.min(upper[0], lower[0]), Math.max(upper[1], lower[1])};
  }

  private static int[] counting(double[] terms) {
    double least = NEGLIGIBLE_SHARE * sum(terms);
    int first = 0;
    while (first < terms.length && terms[first] < least) {
      first++;
    }
    int end = terms.length;
    while (end > first && terms[end - 1] < least) {
      end--;
    }
    return new int[] {first, end};
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

package borecensus.norms;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Fits the law of a fault's sizes to how many faults have each size.
 *
 * <p>The log probability is a polynomial of the third degree in the log size: an exponential family
 * over the grid, as in Efron (2016, "Empirical Bayes deconvolution estimates", Biometrika 103:1-20,
 * section 2). It holds every log-normal, cut to the grid, and laws that lean or rise to an end of
 * it. So few numbers cannot follow a chance gap or heap of a hundred faults, and they tie the
 * number of faults too small to be seen to those that are seen. The believed law counts for {@value
 * #PSEUDO_FAULTS} faults, a conjugate prior (Diaconis and Ylvisaker, 1979, Ann. Statist.
 * 7:269-281). Degree and count are choices (no source).
 */
final class SizeLawFit {
  private static final double PSEUDO_FAULTS = 10;
  private static final int DEGREE = 3;
  private static final double SMALL_SHARE = 0.1;
  private static final double MOST_SMALL = 0.3;
  private static final int MOST_STEPS = 30;
  private static final double CLOSE = 1e-9;

  private final double[] counts;
  private final double total;
  private final double[][] basis;

  private SizeLawFit(double[] counts) {
    this.counts = counts;
    this.total = Arrays.stream(counts).sum();
    this.basis = basis(counts.length);
  }

  /**
   * The law.
   *
   * @param found faults by size, expected counts
   */
  static SeverityGrid fit(SeverityGrid believed, double[] found) {
    double[] counts = believed.weights();
    for (int i = 0; i < counts.length; i++) {
      counts[i] = PSEUDO_FAULTS * counts[i] + found[i];
    }
    SizeLawFit fit = new SizeLawFit(counts);
    double[] law = FaultPosterior.normalised(fit.logs(fit.maximum()));
    double[] held = withFewSmall(law, believed.weights());
    return believed.withLogWeights(Arrays.stream(held).map(Math::log).toArray());
  }

  /**
   * Holds the smallest sizes. Losses of a few per cent look like the differences of sound engines,
   * above all where each was tested once: free to do so, the law explains the whole fleet by faults
   * that nobody could find. So the sizes that are believed to hold {@value #SMALL_SHARE} of the
   * faults get no more than {@value #MOST_SMALL} of them (choices, no source).
   */
  private static double[] withFewSmall(double[] law, double[] believed) {
    int small = 0;
    double expected = 0;
    double found = 0;
    while (expected + believed[small] < SMALL_SHARE) {
      expected += believed[small];
      found += law[small];
      small++;
    }
    if (found <= MOST_SMALL) {
      return law;
    }
    double[] held = law.clone();
    for (int i = 0; i < held.length; i++) {
      held[i] *= i < small ? MOST_SMALL / found : (1 - MOST_SMALL) / (1 - found);
    }
    return held;
  }

  /** Log size, from -1 to 1 over the grid, with its square and cube. */
  private static double[][] basis(int points) {
    double[][] basis = Zeros.of(DEGREE, points);
    for (int i = 0; i < points; i++) {
      double x = 2.0 * i / (points - 1) - 1;
      basis[0][i] = x;
      basis[1][i] = x * x;
      basis[2][i] = x * x * x;
    }
    return basis;
  }

  /**
   * Newton steps on a concave log likelihood, halved where they would lose more than rounding,
   * until a step moves nothing: so near the top the likelihood itself no longer tells one law from
   * another.
   */
  private double[] maximum() {
    double[] theta = new double[DEGREE];
    double present = logLikelihood(theta);
    double longest = Double.POSITIVE_INFINITY;
    for (int step = 0; step < MOST_STEPS && longest > CLOSE; step++) {
      double[] change = newtonStep(theta);
      double[] next = plus(theta, change, 1);
      double reached = logLikelihood(next);
      double least = present - CLOSE * Math.abs(present);
      for (double part = 0.5; reached < least && part > CLOSE; part /= 2) {
        next = plus(theta, change, part);
        reached = logLikelihood(next);
      }
      longest = Arrays.stream(change).map(Math::abs).max().orElse(0);
      theta = next;
      present = reached;
    }
    return theta;
  }

  private double[] newtonStep(double[] theta) {
    double[] p = FaultPosterior.normalised(logs(theta));
    double[] means = Arrays.stream(basis).mapToDouble(b -> dot(b, p)).toArray();
    double[] gradient = new double[DEGREE];
    double[][] information = Zeros.square(DEGREE);
    for (int k = 0; k < DEGREE; k++) {
      gradient[k] = dot(basis[k], counts) - total * means[k];
      for (int l = 0; l < DEGREE; l++) {
        double product = 0;
        for (int i = 0; i < p.length; i++) {
          product += p[i] * basis[k][i] * basis[l][i];
        }
        information[k][l] = total * (product - means[k] * means[l] + (k == l ? CLOSE : 0));
      }
    }
    return Cholesky.of(information).solve(gradient);
  }

  private double logLikelihood(double[] theta) {
    double[] p = FaultPosterior.normalised(logs(theta));
    return IntStream.range(0, p.length)
        .mapToDouble(i -> counts[i] == 0 ? 0 : counts[i] * Math.log(p[i]))
        .sum();
  }

  private double[] logs(double[] theta) {
    double[] logs = new double[counts.length];
    for (int k = 0; k < DEGREE; k++) {
      for (int i = 0; i < logs.length; i++) {
        logs[i] += theta[k] * basis[k][i];
      }
    }
    return logs;
  }

  private static double[] plus(double[] theta, double[] change, double part) {
    double[] sum = theta.clone();
    for (int k = 0; k < DEGREE; k++) {
      sum[k] += part * change[k];
    }
    return sum;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

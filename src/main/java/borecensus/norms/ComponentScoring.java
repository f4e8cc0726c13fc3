package borecensus.norms;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Restricted maximum likelihood for variance components by Fisher scoring on their logarithms
 * (Patterson and Thompson, 1971, Biometrika 58:545-554; Searle, Casella and McCulloch, 1992,
 * section 8.3), with a normal prior on each logarithm, which draws small samples to what is
 * believed. A variance that the data would put at zero, or below, shrinks to what the prior still
 * allows and is never zero; under a prior that says nothing it becomes a negligible share.
 */
final class ComponentScoring {
  private static final double LONGEST_STEP = 1;
  private static final double CONVERGED = 1e-4;
  private static final int BLOCK = 256;

  private final double[] priorLog;
  private final double[] priorSd;

  ComponentScoring(double[] priorVariances, double[] priorSd) {
    this.priorLog = Arrays.stream(priorVariances).map(Math::log).toArray();
    this.priorSd = priorSd.clone();
  }

  static ComponentScoring ofLogs(double[] priorLogs, double[] priorSd) {
    return new ComponentScoring(Arrays.stream(priorLogs).map(Math::exp).toArray(), priorSd);
  }

  /**
   * Variances with their approximate errors.
   *
   * @param logs of the variances that fit best
   * @param covariance of the logs' errors, the prior included
   */
  record Estimate(double[] logs, double[][] covariance) {

    double[] variances() {
      return Arrays.stream(logs).map(Math::exp).toArray();
    }
  }

  /** The variances that fit best, from this start, after at most so many steps. */
  double[] fit(List<ComponentItem> items, double[] start, int steps) {
    return estimate(items, Arrays.stream(start).map(Math::log).toArray(), steps).variances();
  }

  /** The same from logs, with errors by the information at the last step's start. */
  Estimate estimate(List<ComponentItem> items, double[] startLogs, int steps) {
    double[] logs = startLogs.clone();
    Cholesky information = null;
    for (int i = 0; i < steps; i++) {
      Scoring scoring = scoring(items, logs);
      information = Cholesky.of(scoring.information());
      double[] step = information.solve(scoring.gradient());
      double longest = 0;
      for (int k = 0; k < logs.length; k++) {
        double bounded = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, step[k]));
        logs[k] += bounded;
        longest = Math.max(longest, Math.abs(bounded));
      }
      if (longest < CONVERGED) {
        break;
      }
    }
    return new Estimate(logs, information.inverse());
  }

  private record Scoring(double[] gradient, double[][] information) {
    static Scoring zero(int n) {
      return new Scoring(new double[n], Zeros.square(n));
    }

    void add(Scoring other) {
      for (int k = 0; k < gradient.length; k++) {
        gradient[k] += other.gradient[k];
        for (int l = 0; l < gradient.length; l++) {
          information[k][l] += other.information[k][l];
        }
      }
    }
  }

  /** Items are scored on all cores, block by block, and the blocks summed up in their order. */
  private Scoring scoring(List<ComponentItem> items, double[] logs) {
    double[] variances = Arrays.stream(logs).map(Math::exp).toArray();
    Scoring sum = Scoring.zero(logs.length);
    IntStream.range(0, (items.size() + BLOCK - 1) / BLOCK)
        .parallel()
        .mapToObj(b -> block(items, b * BLOCK, variances))
        .toList()
        .forEach(sum::add);
    for (int k = 0; k < logs.length; k++) {
      double weight = 1 / (priorSd[k] * priorSd[k]);
      sum.gradient()[k] -= weight * (logs[k] - priorLog[k]);
      sum.information()[k][k] += weight;
    }
    return sum;
  }

  private static Scoring block(List<ComponentItem> items, int from, double[] variances) {
    Scoring sum = Scoring.zero(variances.length);
    for (ComponentItem item : items.subList(from, Math.min(from + BLOCK, items.size()))) {
      if (item.weight() > 0) {
        addItem(item, variances, sum.gradient(), sum.information());
      }
    }
    return sum;
  }

  private static void addItem(
      ComponentItem item, double[] variances, double[] gradient, double[][] information) {
    int n = variances.length;
    double[][] w = Cholesky.of(covariance(item, variances)).inverse();
    double[][] sw = product(item.scatter(), w);
    double[][][] kw = new double[n][][];
    for (int k = 0; k < n; k++) {
      kw[k] = item.patterns().get(k).times(w);
      double fit = traceOfProduct(kw[k], sw) - item.degrees() * trace(kw[k]);
      gradient[k] += item.weight() * variances[k] * fit / 2;
      for (int l = 0; l <= k; l++) {
        double both = item.weight() * item.degrees() * traceOfProduct(kw[k], kw[l]) / 2;
        information[k][l] += variances[k] * variances[l] * both;
      }
    }
  }

  /** The lower triangle, which is all that is read of it. */
  private static double[][] covariance(ComponentItem item, double[] variances) {
    double[][] covariance = new double[item.known().length][];
    for (int i = 0; i < covariance.length; i++) {
      covariance[i] = item.known()[i].clone();
    }
    for (int k = 0; k < variances.length; k++) {
      item.patterns().get(k).addTo(covariance, variances[k]);
    }
    return covariance;
  }

  private static double[][] product(double[][] a, double[][] b) {
    double[][] product = Zeros.square(a.length);
    for (int i = 0; i < a.length; i++) {
      double[] row = product[i];
      for (int k = 0; k < a.length; k++) {
        double factor = a[i][k];
        double[] other = b[k];
        for (int j = 0; j < row.length; j++) {
          row[j] += factor * other[j];
        }
      }
    }
    return product;
  }

  private static double trace(double[][] a) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i][i];
    }
    return sum;
  }

  private static double traceOfProduct(double[][] a, double[][] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < a.length; j++) {
        sum += a[i][j] * b[j][i];
      }
    }
    return sum;
  }
}

package borecensus.norms;

import java.util.Arrays;
import java.util.List;

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

  private record Scoring(double[] gradient, double[][] information) {}

  private Scoring scoring(List<ComponentItem> items, double[] logs) {
    int n = logs.length;
    double[] variances = Arrays.stream(logs).map(Math::exp).toArray();
    double[] gradient = new double[n];
    double[][] information = new double[n][n];
    for (ComponentItem item : items) {
      if (item.weight() > 0) {
        addItem(item, variances, gradient, information);
      }
    }
    for (int k = 0; k < n; k++) {
      double weight = 1 / (priorSd[k] * priorSd[k]);
      gradient[k] -= weight * (logs[k] - priorLog[k]);
      information[k][k] += weight;
    }
    return new Scoring(gradient, information);
  }

  private static void addItem(
      ComponentItem item, double[] variances, double[] gradient, double[][] information) {
    int n = variances.length;
    double[][] w = Cholesky.of(covariance(item, variances)).inverse();
    double[][] ws = product(w, item.scatter());
    double[][][] wk = new double[n][][];
    for (int k = 0; k < n; k++) {
      wk[k] = product(w, item.patterns()[k]);
      double fit = traceOfProduct(wk[k], ws) - item.degrees() * trace(wk[k]);
      gradient[k] += item.weight() * variances[k] * fit / 2;
      for (int l = 0; l <= k; l++) {
        double both = item.weight() * item.degrees() * traceOfProduct(wk[k], wk[l]) / 2;
        information[k][l] += variances[k] * variances[l] * both;
      }
    }
  }

  private static double[][] covariance(ComponentItem item, double[] variances) {
    int t = item.known().length;
    double[][] covariance = new double[t][t];
    for (int i = 0; i < t; i++) {
      for (int j = 0; j < t; j++) {
        covariance[i][j] = item.known()[i][j];
        for (int k = 0; k < variances.length; k++) {
          covariance[i][j] += variances[k] * item.patterns()[k][i][j];
        }
      }
    }
    return covariance;
  }

  private static double[][] product(double[][] a, double[][] b) {
    double[][] product = new double[a.length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int k = 0; k < a.length; k++) {
        double factor = a[i][k];
        for (int j = 0; j < a.length; j++) {
          product[i][j] += factor * b[k][j];
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

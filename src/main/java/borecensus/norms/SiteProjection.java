package borecensus.norms;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;

/**
 * Generalised least squares of site levels on one and log ambient pressure, for one given scatter
 * between sites.
 */
final class SiteProjection {
  private final double siteSd;
  private final double[][] projection;
  private final double[] projected;
  private final double[] coefficients;
  private final double slopeVariance;
  private final double squares;
  private final double logLikelihood;

  private SiteProjection(SiteLevels levels, double siteSd, double[][] covariance, int columns) {
    this.siteSd = siteSd;
    int n = covariance.length;
    double[][] x = new double[columns][];
    x[0] = new double[n];
    Arrays.fill(x[0], 1);
    if (columns > 1) {
      x[1] = levels.logAmbient();
    }
    Cholesky factor = Cholesky.of(covariance);
    double[][] weighted = new double[columns][];
    double[][] information = Zeros.square(columns);
    double[] score = new double[columns];
    for (int i = 0; i < columns; i++) {
      weighted[i] = factor.solve(x[i]);
      score[i] = dot(weighted[i], levels.logLevel());
      for (int j = 0; j <= i; j++) {
        information[i][j] = dot(weighted[i], x[j]);
      }
      // Sites of one ambient pressure leave the slope open rather than the matrix singular.
      information[i][i] *= 1 + 1e-9;
    }
    Cholesky inner = Cholesky.of(information);
    coefficients = inner.solve(score);
    double[][] errors = inner.inverse();
    slopeVariance = columns > 1 ? errors[1][1] : 0;
    projection = factor.inverse();
    for (int s = 0; s < n; s++) {
      for (int t = 0; t < n; t++) {
        for (int i = 0; i < columns; i++) {
          for (int j = 0; j < columns; j++) {
            projection[s][t] -= weighted[i][s] * errors[i][j] * weighted[j][t];
          }
        }
      }
    }
    projected = new double[n];
    for (int s = 0; s < n; s++) {
      projected[s] = dot(projection[s], levels.logLevel());
    }
    squares = dot(projected, levels.logLevel());
    logLikelihood = -(factor.logDeterminant() + inner.logDeterminant() + squares) / 2;
  }

  /**
   * Fits with this scatter.
   *
   * @param addedVariance by site
   * @param slopePriorVariance about zero; zero for a free slope
   */
  static SiteProjection of(
      SiteLevels levels,
      double siteSd,
      IntToDoubleFunction addedVariance,
      double slopePriorVariance) {
    int n = levels.siteIds().size();
    double[] x = levels.logAmbient();
    double[][] covariance = Zeros.square(n);
    for (int s = 0; s < n; s++) {
      for (int t = 0; t < n; t++) {
        covariance[s][t] = levels.errors()[s][t] + slopePriorVariance * x[s] * x[t];
      }
      covariance[s][s] += siteSd * siteSd + addedVariance.applyAsDouble(s);
    }
    return new SiteProjection(levels, siteSd, covariance, slopePriorVariance > 0 ? 1 : 2);
  }

  /** The fit with the most likely of these scatters. */
  static SiteProjection best(
      SiteLevels levels,
      double[] siteSds,
      IntToDoubleFunction addedVariance,
      double slopePriorVariance) {
    SiteProjection best = null;
    for (double sd : siteSds) {
      SiteProjection next = of(levels, sd, addedVariance, slopePriorVariance);
      best = best == null || next.logLikelihood > best.logLikelihood ? next : best;
    }
    return best;
  }

  double siteSd() {
    return siteSd;
  }

  /** Intercept and, where it is free, slope. */
  double[] coefficients() {
    return coefficients.clone();
  }

  double slopeVariance() {
    return slopeVariance;
  }

  /** Weighted sum of squared residuals. */
  double squares() {
    return squares;
  }

  /** What a site reads above the figure that the other sites foretell. */
  double deleted(int site) {
    return projected[site] / projection[site][site];
  }

  double deletedVariance(int site) {
    return 1 / projection[site][site];
  }

  double deletedZ(int site) {
    return projected[site] / Math.sqrt(projection[site][site]);
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }
}

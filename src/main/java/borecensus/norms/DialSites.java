package borecensus.norms;

import borecensus.statistics.Quantiles;
import java.util.Arrays;

/**
 * Readings of one engine as the likelihood takes them: a value and a variance each, test by test
 * and cylinder by cylinder.
 *
 * <p>A dial tells an interval. Where its step is small against the scatter of readings, the middle
 * of the interval with the variance of a uniform error says the same (Sheppard, 1898, Proc. London
 * Math. Soc. 29:353-380). Past that it does not: all cylinders of a test then share a mark, and
 * their rounding errors with it. There each interval is replaced by the normal that has the same
 * effect on what the engine's other readings foretell (expectation propagation: Minka, 2001,
 * section 3.2): with foretold mean m and variance v, and mean m' and variance v' of that normal cut
 * to the interval, its precision is 1/v' - 1/v and its precision times value m'/v' - m/v.
 *
 * @param residual as {@link HealthyModel#residual}; NaN where not read
 * @param variance of each reading about its cylinder's state, rounding included
 */
record DialSites(double[][] residual, double[][] variance) {
  /** A step up to so many standard deviations of readings within a test is left to Sheppard. */
  static final double FINE_STEP = 1;

  private static final int SWEEPS = 4;

  /** Neighbouring sites changed at once may overshoot: so much of each change is kept. */
  private static final double DAMPING = 0.6;

  /** A site is never quite without information, and never more than this against the rest. */
  private static final double LEAST_GAIN = 1e-6;

  static DialSites of(HealthyModel model) {
    return of(model, Cholesky.of(model.levelCovariance()));
  }

  /** The same, with the factor of the covariance of levels at hand. */
  static DialSites of(HealthyModel model, Cholesky levels) {
    DialSites sites = asRead(model);
    boolean[] coarse = coarse(model);
    if (!any(coarse)) {
      return sites;
    }
    Interval[][] intervals = intervals(model, coarse);
    for (int sweep = 0; sweep < SWEEPS; sweep++) {
      ReadingPrecision precision = ReadingPrecision.of(model, sites, levels);
      sites = sites.swept(model, intervals, precision, sweep == 0 ? 1 : DAMPING);
    }
    return sites;
  }

  /** The middle of every interval, with the variance of a uniform error. */
  static DialSites asRead(HealthyModel model) {
    double[][] variance = new double[model.tests()][];
    for (int t = 0; t < variance.length; t++) {
      variance[t] = new double[model.residual()[t].length];
      Arrays.fill(variance[t], model.readingVariance()[t]);
    }
    return new DialSites(model.residual(), variance);
  }

  /** Whether the same tests of two cylinders (from 0) were read, with the same variances. */
  boolean alike(int first, int second) {
    for (int t = 0; t < residual.length; t++) {
      boolean read = Double.isNaN(residual[t][first]) == Double.isNaN(residual[t][second]);
      if (!read || variance[t][first] != variance[t][second]) {
        return false;
      }
    }
    return true;
  }

  private static boolean[] coarse(HealthyModel model) {
    boolean[] coarse = new boolean[model.tests()];
    for (int t = 0; t < coarse.length; t++) {
      double scatter = model.cylinderVariance() + ownVariance(model, t);
      coarse[t] = 2 * model.readings().halfStep()[t] > FINE_STEP * Math.sqrt(scatter);
    }
    return coarse;
  }

  /**
   * What each coarse dial tells; null for a test whose dial is not coarse, and where a reading is
   * missing.
   */
  private static Interval[][] intervals(HealthyModel model, boolean[] coarse) {
    Interval[][] intervals = new Interval[coarse.length][];
    for (int t = 0; t < coarse.length; t++) {
      intervals[t] = coarse[t] ? intervals(model, t) : null;
    }
    return intervals;
  }

  private static Interval[] intervals(HealthyModel model, int test) {
    double[] values = model.residual()[test];
    double middle = Quantiles.median(EngineLevels.read(model.readings().logKpa()[test]));
    Interval[] intervals = new Interval[values.length];
    for (int c = 0; c < values.length; c++) {
      boolean read = !Double.isNaN(values[c]);
      intervals[c] = read ? Interval.of(model, test, c, middle) : null;
    }
    return intervals;
  }

  private static boolean any(boolean[] flags) {
    for (boolean flag : flags) {
      if (flag) {
        return true;
      }
    }
    return false;
  }

  private static double ownVariance(HealthyModel model, int test) {
    return model.readingVariance()[test] - model.readings().roundingVariance()[test];
  }

  private DialSites swept(
      HealthyModel model, Interval[][] intervals, ReadingPrecision precision, double damping) {
    // Tests of fine dials stay as they are, and are shared.
    double[][] values = residual.clone();
    double[][] variances = variance.clone();
    double[] own = new double[residual.length];
    for (int t = 0; t < residual.length; t++) {
      if (intervals[t] != null) {
        values[t] = residual[t].clone();
        variances[t] = variance[t].clone();
        own[t] = ownVariance(model, t);
      }
    }
    for (int c = 0; c < residual[0].length; c++) {
      double[] scores = precision.weighted(c);
      double[] information = precision.information(c);
      for (int t = 0; t < residual.length; t++) {
        if (intervals[t] != null && intervals[t][c] != null) {
          Normal site = new Normal(residual[t][c], variance[t][c] - own[t]);
          Normal others = Normal.without(site, scores[t], information[t]);
          Normal moved = site.towards(intervals[t][c].site(others), damping);
          values[t][c] = moved.mean();
          variances[t][c] = moved.variance() + own[t];
        }
      }
    }
    return new DialSites(values, variances);
  }

  /** A normal law. */
  private record Normal(double mean, double variance) {
    /** What all else foretells of the reading before rounding, from W z and W with it included. */
    static Normal without(Normal site, double score, double information) {
      double variance = 1 / information;
      return new Normal(site.mean() - score * variance, variance - site.variance());
    }

    Normal towards(Normal next, double share) {
      double old = (1 - share) / variance;
      double added = share / next.variance;
      double moved = 1 / (old + added);
      return new Normal((old * mean + added * next.mean) * moved, moved);
    }
  }

  /** Between two marks of the dial, as residuals. */
  private record Interval(double low, double high) {
    /** Around one reading, of a test whose middle log reading is this. */
    static Interval of(HealthyModel model, int test, int cylinder, double middle) {
      double log = model.readings().logKpa()[test][cylinder];
      double half = model.readings().halfStep()[test] * Math.exp(middle - log);
      double value = model.residual()[test][cylinder];
      return new Interval(value + Math.log1p(-Math.min(0.9, half)), value + Math.log1p(half));
    }

    Normal site(Normal others) {
      double sd = Math.sqrt(others.variance());
      double perSd = 1 / sd;
      double from = (low - others.mean()) * perSd;
      double to = (high - others.mean()) * perSd;
      TruncatedNormal cut = TruncatedNormal.between(from, to);
      double gain = Math.min(1 - LEAST_GAIN, Math.max(LEAST_GAIN, cut.variance()));
      double spread = 1 / (1 - gain);
      double variance = others.variance() * gain * spread;
      return new Normal(others.mean() + sd * cut.mean() * spread, variance);
    }
  }
}

package borecensus.norms;

import java.util.ArrayList;
import java.util.List;

/**
 * Regression of site levels on log ambient pressure, sites scattering by more than their errors: a
 * random effects meta-regression, its variance by restricted maximum likelihood over a grid and its
 * standard error after Knapp and Hartung (2003, Stat. Med. 22:2693-2710, eq. 4), never below the
 * plain one.
 *
 * <p>A site's residual is its deviation from what all the others foretell, the identity e = P y / P
 * (its own diagonal element) of deleted residuals with P the projection of the generalised least
 * squares; the slope has a normal prior there, so that the only high site of a fleet can be told to
 * be out of line.
 */
final class SiteRegression {
  /** Scatter of sites, log units, that is tried. */
  private static final double[] SITE_SDS = {
    1e-4, 0.002, 0.004, 0.006, 0.008, 0.01, 0.013, 0.017, 0.022, 0.03, 0.04, 0.055, 0.075, 0.1, 0.2
  };

  /** How far the exponent might be from one before any data: half of what density would make. */
  private static final double SLOPE_PRIOR_SD = 0.1;

  /** Added to the variance of a site that is to be left out. */
  private static final double LEFT_OUT = 100;

  private final SiteLevels levels;
  private final int n;

  SiteRegression(SiteLevels levels) {
    this.levels = levels;
    this.n = levels.siteIds().size();
  }

  /** Slope of the levels at reference conditions over log ambient pressure; expected zero. */
  record Slope(double value, double standardError) {}

  Slope slope() {
    SiteProjection best = SiteProjection.best(levels, SITE_SDS, s -> 0, 0);
    double[] estimate = best.coefficients();
    double excess = Math.max(1, best.squares() / Math.max(1, n - 2));
    return new Slope(estimate[1], Math.sqrt(excess * best.slopeVariance()));
  }

  List<SiteResidual> residuals() {
    double slopeVariance = SLOPE_PRIOR_SD * SLOPE_PRIOR_SD;
    SiteProjection all = SiteProjection.best(levels, SITE_SDS, s -> 0, slopeVariance);
    int worst = 0;
    for (int s = 1; s < n; s++) {
      worst = Math.abs(all.deletedZ(s)) > Math.abs(all.deletedZ(worst)) ? s : worst;
    }
    int out = worst;
    SiteProjection rest =
        SiteProjection.best(levels, SITE_SDS, s -> s == out ? LEFT_OUT : 0, slopeVariance);
    SiteProjection withOut = SiteProjection.of(levels, rest.siteSd(), s -> 0, slopeVariance);
    List<SiteResidual> residuals = new ArrayList<>();
    for (int s = 0; s < n; s++) {
      SiteProjection view = s == out ? withOut : rest;
      residuals.add(
          new SiteResidual(
              levels.siteIds().get(s),
              100 * Math.expm1(view.deleted(s)),
              100 * Math.sqrt(view.deletedVariance(s)),
              levels.tests()[s]));
    }
    return residuals;
  }
}

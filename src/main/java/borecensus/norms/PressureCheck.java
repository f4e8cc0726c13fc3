package borecensus.norms;

import borecensus.domain.EngineHistory;
import java.io.Serializable;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Whether the readings of a fleet follow the pressure of the air as physics has it: gauge pressure
 * proportional to ambient pressure, an exponent of one (see the reference pressure's derivation).
 * Readings corrected by density show 0.81 (of the standard atmosphere, where density goes as
 * pressure to the power 1 - 1 / 5.256); sea-level pressure given for the pressure at the station
 * shows at the sites that are high.
 *
 * <p>Sites are compared, not days: whatever is wrong at a site is wrong in all its tests, and the
 * day-to-day differences of a barometer are so small that its own error would draw the exponent
 * down. The standard error therefore counts sites, not tests.
 *
 * @param exponent of ambient pressure in the readings as measured; NaN with fewer than three sites
 *     or a standard error above one half
 * @param standardError of that; above 0.1 pressure and density could not be told apart and the
 *     exponent is called not estimable, however far it is from one
 * @param tests trusted tests used
 * @param sites every site's residual, the most striking first
 */
public record PressureCheck(
    double exponent, double standardError, int tests, Status status, List<SiteResidual> sites)
    implements Serializable {

  /** What the data say of the exponent one. */
  public enum Status {
    AGREES,
    REJECTED,
    NOT_ESTIMABLE;

    /** The word used in files. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  private static final double EXPECTED = 1;

  /** Two-sided level at which the expected exponent is rejected. */
  private static final double LEVEL = 0.01;

  /** Half of the difference between pressure and density. */
  private static final double LARGEST_ERROR = 0.1;

  /** From this standard error on, no figure is given at all. */
  private static final double NO_ESTIMATE = 0.5;

  private static final int FEWEST_SITES = 3;

  public PressureCheck {
    sites = List.copyOf(sites);
  }

  /** Checks a fleet against its norms. The order of the histories does not matter. */
  public static PressureCheck of(List<EngineHistory> histories, FleetNorms norms) {
    SiteLevels levels = SiteLevelFit.of(histories, norms);
    int tests = 0;
    for (int n : levels.tests()) {
      tests += n;
    }
    int sites = levels.siteIds().size();
    List<SiteResidual> residuals = sites < 2 ? List.of() : new SiteRegression(levels).residuals();
    List<SiteResidual> ordered =
        residuals.stream()
            .sorted(
                Comparator.comparingDouble((SiteResidual s) -> -Math.abs(s.z()))
                    .thenComparing(SiteResidual::siteId))
            .toList();
    if (sites < FEWEST_SITES) {
      return new PressureCheck(Double.NaN, Double.NaN, tests, Status.NOT_ESTIMABLE, ordered);
    }
    SiteRegression.Slope slope = new SiteRegression(levels).slope();
    if (!(slope.standardError() < NO_ESTIMATE)) {
      return new PressureCheck(Double.NaN, Double.NaN, tests, Status.NOT_ESTIMABLE, ordered);
    }
    return new PressureCheck(
        EXPECTED + slope.value(), slope.standardError(), tests, status(slope, sites), ordered);
  }

  private static Status status(SiteRegression.Slope slope, int sites) {
    if (!(slope.standardError() <= LARGEST_ERROR)) {
      return Status.NOT_ESTIMABLE;
    }
    double limit = new TDistribution(sites - 2.0).inverseCumulativeProbability(1 - LEVEL / 2);
    return Math.abs(slope.value()) > limit * slope.standardError()
        ? Status.REJECTED
        : Status.AGREES;
  }

  /** The site that is furthest out in its standard errors; empty with fewer than two sites. */
  public Optional<SiteResidual> worstSite() {
    return sites.stream().findFirst();
  }
}

package borecensus.norms;

import java.util.List;

/**
 * Levels of the sites against each other, engines, families and gauges allowed for.
 *
 * @param siteIds sorted
 * @param logAmbient by site, mean of log(ambient pressure / reference ambient pressure)
 * @param tests by site
 * @param logLevel by site, level of log reading at reference conditions
 * @param errors covariance of the errors of the levels
 */
record SiteLevels(
    List<String> siteIds, double[] logAmbient, int[] tests, double[] logLevel, double[][] errors) {}

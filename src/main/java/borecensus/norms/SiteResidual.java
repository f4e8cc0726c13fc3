package borecensus.norms;

import java.io.Serializable;

/**
 * How far the engines tested at one site read from what the other sites foretell for its ambient
 * pressure. Some -10 % is what a site shows whose elevation is registered 800 m too low, or whose
 * sheets give sea-level pressure for the pressure at an 800 m high station.
 *
 * @param residualPct level at reference conditions above the foretold one, per cent
 * @param standardErrorPct of that, counting the scatter between sites (estimated without this one)
 *     and the unknown offsets of gauges that serve this site alone
 * @param tests trusted tests used
 */
public record SiteResidual(String siteId, double residualPct, double standardErrorPct, int tests)
    implements Serializable {

  /** The residual in its standard errors. */
  public double z() {
    return residualPct / standardErrorPct;
  }
}

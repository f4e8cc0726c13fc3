package borecensus.norms;

import java.io.Serializable;
import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a whole fleet shows to be healthy: everything that judging one engine needs.
 *
 * @param families by family_id, every registered family
 * @param gauges by gauge_id, every registered gauge and every gauge with tests
 * @param tails how often healthy variation is wide
 * @param gaugeVariance variance of the gauges' log offsets
 * @param covariates what the conditions of a test do to its readings
 */
public record FleetNorms(
    SortedMap<String, FamilyNorm> families,
    SortedMap<String, GaugeOffset> gauges,
    double gaugeVariance,
    CovariateEffects covariates,
    HypothesisShares shares,
    Tails tails,
    Priors priors)
    implements Serializable {

  public FleetNorms {
    families = Collections.unmodifiableSortedMap(new TreeMap<>(families));
    gauges = Collections.unmodifiableSortedMap(new TreeMap<>(gauges));
  }

  /** The norm of a family; empty when it is not registered. */
  public Optional<FamilyNorm> family(String familyId) {
    return Optional.ofNullable(families.get(familyId));
  }

  /** The offset of a gauge: one never seen is as uncertain as gauges differ. */
  public GaugeOffset gauge(String gaugeId) {
    GaugeOffset known = gauges.get(gaugeId);
    return known != null
        ? known
        : new GaugeOffset(gaugeId, 0, Math.sqrt(gaugeVariance), 0, Double.NaN);
  }

  /**
   * Expected reading of a healthy engine at reference conditions, kPa gauge; NaN when the family is
   * not registered or nothing is known of its level.
   *
   * @param usage km or engine hours, as the family is judged; NaN stands for the usual usage
   * @param cylinder from 1
   */
  public double expectedKpa(String familyId, double usage, int cylinder) {
    return family(familyId).map(norm -> norm.expectedKpa(usage, cylinder)).orElse(Double.NaN);
  }

  /** Error variance of a gauge's offset for tests of this family. */
  double gaugeErrorVariance(FamilyNorm norm, String gaugeId) {
    Double inFamily = norm.gaugeErrorVariances().get(gaugeId);
    double error = gauge(gaugeId).standardErrorLog();
    return inFamily != null ? inFamily : error * error + norm.gaugeMixErrorVariance();
  }

  FleetNorms withFamilies(SortedMap<String, FamilyNorm> newFamilies) {
    return new FleetNorms(newFamilies, gauges, gaugeVariance, covariates, shares, tails, priors);
  }

  FleetNorms withGauges(SortedMap<String, GaugeOffset> newGauges, double newVariance) {
    return new FleetNorms(families, newGauges, newVariance, covariates, shares, tails, priors);
  }

  FleetNorms withCovariates(CovariateEffects newCovariates) {
    return new FleetNorms(families, gauges, gaugeVariance, newCovariates, shares, tails, priors);
  }

  FleetNorms withShares(HypothesisShares newShares) {
    return new FleetNorms(families, gauges, gaugeVariance, covariates, newShares, tails, priors);
  }

  FleetNorms withTails(Tails newTails) {
    return new FleetNorms(families, gauges, gaugeVariance, covariates, shares, newTails, priors);
  }
}

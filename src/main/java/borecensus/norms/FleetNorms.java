package borecensus.norms;

import borecensus.domain.CompressionTest;
import java.io.Serializable;
import java.util.Optional;
import java.util.SortedMap;

/**
 * What a whole fleet shows to be healthy: everything that judging one engine needs.
 *
 * @param families by family_id, every registered family
 * @param gauges by gauge_id, every registered gauge and every gauge with tests
 * @param shares how common faults are
 * @param sizes how large faults are
 * @param tails how often healthy variation is wide
 * @param gaugeVariance variance of the gauges' log offsets
 * @param gaugeDrift how gauges change with time
 * @param covariates what the conditions of a test do to its readings
 */
public record FleetNorms(
    SortedMap<String, FamilyNorm> families,
    SortedMap<String, GaugeOffset> gauges,
    double gaugeVariance,
    GaugeDrift gaugeDrift,
    CovariateEffects covariates,
    HypothesisShares shares,
    FaultSizes sizes,
    Tails tails,
    Priors priors)
    implements Serializable {

  public FleetNorms {
    families = KeyedMap.copyOf(families);
    gauges = KeyedMap.copyOf(gauges);
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

  /** How much the gauge and the conditions of a test raise its log readings in this family. */
  public double measurementShiftLog(FamilyNorm norm, CompressionTest test) {
    return gauge(test.gaugeId()).offsetLogOn(test.testedAt().toLocalDate())
        + covariates.shiftLog(norm.family(), TestConditions.of(test));
  }

  /** The offsets of the gauges of some tests, each looked up once. */
  GaugeOffset[] gauges(String[] gaugeIds) {
    GaugeOffset[] found = new GaugeOffset[gaugeIds.length];
    for (int t = 0; t < found.length; t++) {
      boolean same = t > 0 && gaugeIds[t].equals(gaugeIds[t - 1]);
      found[t] = same ? found[t - 1] : gauge(gaugeIds[t]);
    }
    return found;
  }

  /** Error covariance that two tests of this family share by their gauge. */
  double gaugeErrorCovariance(FamilyNorm norm, EngineReadings readings, int first, int second) {
    String gaugeId = readings.gaugeIds()[first];
    if (!gaugeId.equals(readings.gaugeIds()[second])) {
      return 0;
    }
    GaugeOffset gauge = gauge(gaugeId);
    return GaugeError.of(norm, gauge, readings.conditions()[first].day())
        .sharedWith(GaugeError.of(norm, gauge, readings.conditions()[second].day()));
  }

  /** How common faults are, and how large. */
  FaultLaw faults() {
    return new FaultLaw(shares, sizes);
  }

  FleetNorms withFamilies(SortedMap<String, FamilyNorm> newFamilies) {
    return new FleetNorms(
        newFamilies, gauges, gaugeVariance, gaugeDrift, covariates, shares, sizes, tails, priors);
  }

  FleetNorms withGauges(SortedMap<String, GaugeOffset> newGauges, double newVariance) {
    return new FleetNorms(
        families, newGauges, newVariance, gaugeDrift, covariates, shares, sizes, tails, priors);
  }

  FleetNorms withGaugeDrift(GaugeDrift newDrift) {
    return new FleetNorms(
        families, gauges, gaugeVariance, newDrift, covariates, shares, sizes, tails, priors);
  }

  FleetNorms withCovariates(CovariateEffects newCovariates) {
    return new FleetNorms(
        families, gauges, gaugeVariance, gaugeDrift, newCovariates, shares, sizes, tails, priors);
  }

  FleetNorms withFaults(FaultLaw faults) {
    return new FleetNorms(
        families,
        gauges,
        gaugeVariance,
        gaugeDrift,
        covariates,
        faults.shares(),
        faults.sizes(),
        tails,
        priors);
  }

  FleetNorms withTails(Tails newTails) {
    return new FleetNorms(
        families, gauges, gaugeVariance, gaugeDrift, covariates, shares, sizes, newTails, priors);
  }
}

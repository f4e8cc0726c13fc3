package borecensus.norms;

import java.time.LocalDate;

/**
 * What is not known of the gauge of one test, for an engine of one family.
 *
 * @param period of the gauge that the test belongs to
 * @param meanVariance error variance of the gauge's mean offset
 * @param driftVariance error variance of what the period reads above it
 */
record GaugeError(String gaugeId, int period, double meanVariance, double driftVariance) {

  static GaugeError of(FamilyNorm norm, GaugeOffset gauge, LocalDate day) {
    return of(norm, gauge, gauge.periodOn(day));
  }

  static GaugeError of(FamilyNorm norm, GaugeOffset gauge, int period) {
    Double inFamily = norm.gaugeErrorVariances().get(gauge.gaugeId());
    double error = gauge.standardErrorLog();
    double meanVariance =
        inFamily != null ? inFamily : error * error + norm.gaugeMixErrorVariance();
    return new GaugeError(gauge.gaugeId(), period, meanVariance, gauge.driftErrorVariance(period));
  }

  /** The error covariance that this test shares with another one. */
  double sharedWith(GaugeError other) {
    if (!gaugeId.equals(other.gaugeId)) {
      return 0;
    }
    return meanVariance + (period == other.period ? driftVariance : 0);
  }
}

package borecensus.screening;

import borecensus.domain.EngineHistory;
import borecensus.norms.EngineResiduals;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;

/**
 * An engine with its residuals against the norm, so that these are worked out once.
 *
 * @param residuals of its trusted tests; null without any
 */
public record ResidualEngine(EngineHistory history, EngineResiduals residuals) {

  /**
   * Works them out.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  static ResidualEngine of(EngineHistory history, FleetNorms norms) {
    FamilyNorm norm = norm(history, norms);
    boolean tested = !history.trustedTests().isEmpty();
    return new ResidualEngine(history, tested ? EngineResiduals.of(history, norm, norms) : null);
  }

  static FamilyNorm norm(EngineHistory history, FleetNorms norms) {
    return norms
        .family(history.familyId())
        .orElseThrow(
            () -> new IllegalArgumentException("no norm for family " + history.familyId()));
  }

  /** With the covariance of its levels. */
  ModelledEngine modelled(FleetNorms norms) {
    return new ModelledEngine(
        history, residuals == null ? null : HealthyModel.of(residuals, norm(history, norms)));
  }
}

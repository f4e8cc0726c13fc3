package borecensus.screening;

import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;

/**
 * An engine with its residuals against the norm, so that these are worked out once.
 *
 * @param model of its trusted tests; null without any
 */
public record ModelledEngine(EngineHistory history, HealthyModel model) {

  /**
   * Works them out.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  public static ModelledEngine of(EngineHistory history, FleetNorms norms) {
    FamilyNorm norm =
        norms
            .family(history.familyId())
            .orElseThrow(
                () -> new IllegalArgumentException("no norm for family " + history.familyId()));
    boolean tested = !history.trustedTests().isEmpty();
    return new ModelledEngine(history, tested ? HealthyModel.of(history, norm, norms) : null);
  }
}

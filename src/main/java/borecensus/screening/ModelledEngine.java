package borecensus.screening;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;

/**
 * An engine with the model of its tests under the norm, so that it is worked out once.
 *
 * @param model of its trusted tests; null without any
 */
public record ModelledEngine(EngineHistory history, HealthyModel model) {

  /**
   * Works it out.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  public static ModelledEngine of(EngineHistory history, FleetNorms norms) {
    return ResidualEngine.of(history, norms).modelled(norms);
  }
}

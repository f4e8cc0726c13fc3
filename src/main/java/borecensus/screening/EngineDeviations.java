package borecensus.screening;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.norms.EngineResiduals;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import java.util.List;

/**
 * One engine's tests against the norm, each by itself. What the engine's residuals already tell of
 * a test is not worked out anew.
 */
public final class EngineDeviations {
  private final EngineHistory history;
  private final FamilyNorm norm;
  private final FleetNorms norms;
  private final EngineResiduals residuals;

  /** The tests that the residuals hold for. */
  private final List<CompressionTest> known;

  private EngineDeviations(ResidualEngine engine, FleetNorms norms) {
    this.history = engine.history();
    this.norm = ResidualEngine.norm(history, norms);
    this.norms = norms;
    this.residuals = engine.residuals();
    this.known = known(engine);
  }

  /**
   * Of an engine with its residuals.
   *
   * @throws IllegalArgumentException when the norms do not know the family
   */
  public static EngineDeviations of(ResidualEngine engine, FleetNorms norms) {
    return new EngineDeviations(engine, norms);
  }

  /**
   * Where the distance is not the engine's own, the usage of a test depends on the tests before.
   */
  private static List<CompressionTest> known(ResidualEngine engine) {
    if (engine.residuals() == null || !engine.history().originalEngine()) {
      return List.of();
    }
    List<CompressionTest> trusted = engine.history().trustedTests();
    return trusted.subList(trusted.size() - engine.residuals().tests(), trusted.size());
  }

  /** The cylinders of one of the engine's tests, trusted or not. */
  public TestDeviations of(CompressionTest test) {
    for (int t = 0; t < known.size(); t++) {
      if (known.get(t) == test) {
        return TestDeviations.of(test, residuals, t, norm);
      }
    }
    return TestDeviations.of(test, history, norm, norms);
  }
}

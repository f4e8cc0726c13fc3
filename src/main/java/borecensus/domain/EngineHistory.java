package borecensus.domain;

import java.io.Serializable;
import java.util.List;

/**
 * One engine and its accepted tests.
 *
 * @param tests dry and wet, trusted and doubtful, oldest first (ties by test_id), since the last
 *     work that restarts the history
 * @param originalEngine whether the engine came with the vehicle, so that the odometer is its own
 */
public record EngineHistory(
    String vehicleId,
    String engineId,
    String familyId,
    String homeSiteId,
    boolean originalEngine,
    List<CompressionTest> tests)
    implements Serializable {

  public EngineHistory {
    tests = List.copyOf(tests);
  }

  /** The tests that may stand as evidence, oldest first. */
  public List<CompressionTest> trustedTests() {
    return tests.stream().filter(CompressionTest::trusted).toList();
  }

  /** The same engine with other tests. */
  public EngineHistory withTests(List<CompressionTest> newTests) {
    return new EngineHistory(vehicleId, engineId, familyId, homeSiteId, originalEngine, newTests);
  }
}

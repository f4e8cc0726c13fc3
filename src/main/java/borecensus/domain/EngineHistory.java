package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * One engine and its accepted tests.
 *
 * @param tests dry and wet, trusted and doubtful, oldest first (ties by test_id), since the last
 *     work that restarts the history
 * @param originalEngine whether the engine came with the vehicle, so that the odometer is its own
 * @param findings what inspections saw since that work, oldest first
 */
public record EngineHistory(
    String vehicleId,
    String engineId,
    String familyId,
    String homeSiteId,
    boolean originalEngine,
    List<CompressionTest> tests,
    List<Finding> findings)
    implements Serializable {

  public EngineHistory {
    tests = List.copyOf(tests);
    findings = findings.stream().sorted(Finding.BY_DAY).toList();
  }

  /** An engine that was never inspected. */
  public EngineHistory(
      String vehicleId,
      String engineId,
      String familyId,
      String homeSiteId,
      boolean originalEngine,
      List<CompressionTest> tests) {
    this(vehicleId, engineId, familyId, homeSiteId, originalEngine, tests, List.of());
  }

  /** The tests that may stand as evidence, oldest first. */
  public List<CompressionTest> trustedTests() {
    return tests.stream().filter(CompressionTest::trusted).toList();
  }

  /** The last inspection that told something. */
  public Optional<Finding> lastFinding() {
    return findings.stream()
        .filter(finding -> finding.result() != FindingResult.INCONCLUSIVE)
        .reduce((earlier, later) -> later);
  }

  /** Whether a trusted test came after the day. */
  public boolean testedAfter(LocalDate day) {
    return trustedTests().stream().anyMatch(t -> t.testedAt().toLocalDate().isAfter(day));
  }

  /** The same engine with other tests. */
  public EngineHistory withTests(List<CompressionTest> newTests) {
    return new EngineHistory(
        vehicleId, engineId, familyId, homeSiteId, originalEngine, newTests, findings);
  }

  /** The same engine with other findings. */
  public EngineHistory withFindings(List<Finding> newFindings) {
    return new EngineHistory(
        vehicleId, engineId, familyId, homeSiteId, originalEngine, tests, newFindings);
  }
}

package borecensus.domain;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

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
    findings = findings.isEmpty() ? List.of() : findings.stream().sorted(Finding.BY_DAY).toList();
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
    // Most engines have no other tests, and this is asked for many times each night.
    return allTrusted() ? tests : tests.stream().filter(CompressionTest::trusted).toList();
  }

  private boolean allTrusted() {
    for (CompressionTest test : tests) {
      if (!test.trusted()) {
        return false;
      }
    }
    return true;
  }

  /** The last inspection that told something. */
  public Optional<Finding> lastFinding() {
    for (int i = findings.size() - 1; i >= 0; i--) {
      if (findings.get(i).result() != FindingResult.INCONCLUSIVE) {
        return Optional.of(findings.get(i));
      }
    }
    return Optional.empty();
  }

  /** Whether a trusted test came after the day. */
  public boolean testedAfter(LocalDate day) {
    for (CompressionTest test : tests) {
      if (test.trusted() && test.testedAt().toLocalDate().isAfter(day)) {
        return true;
      }
    }
    return false;
  }

  /** The engine as it was known before a day: by earlier tests and findings alone. */
  public EngineHistory before(LocalDate day) {
    List<CompressionTest> earlier =
        kept(tests, test -> test.testedAt().toLocalDate().isBefore(day));
    List<Finding> told = kept(findings, finding -> finding.inspectedOn().isBefore(day));
    return earlier.size() == tests.size() && told.size() == findings.size()
        ? this
        : withTests(earlier).withFindings(told);
  }

  private static <T> List<T> kept(List<T> all, Predicate<T> wanted) {
    for (T each : all) {
      if (!wanted.test(each)) {
        return all.stream().filter(wanted).toList();
      }
    }
    return all;
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

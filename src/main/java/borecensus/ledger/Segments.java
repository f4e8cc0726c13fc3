package borecensus.ledger;

import borecensus.domain.Finding;
import borecensus.ledger.SettledVehicle.Segment;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The stretches of a vehicle's engines between works that restart a history. A test on the day of
 * such a work comes after it, an inspection before it: what was found led to the work.
 */
final class Segments {
  private record Key(String engineId, long restartsAfter) {}

  private static final class Content {
    private final List<SettledTest> tests = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();
  }

  private final Key inService;
  private final List<LocalDate> restarts;
  private final Map<Key, Content> contents = new LinkedHashMap<>();

  Segments(String engineInService, List<LocalDate> restarts) {
    this.inService = new Key(engineInService, 0);
    this.restarts = restarts;
  }

  /** Adds a test; the oldest first. */
  void add(SettledTest test) {
    LocalDate testedOn = day(test);
    long after = 0;
    for (LocalDate restart : restarts) {
      after += restart.isAfter(testedOn) ? 1 : 0;
    }
    content(new Key(test.engineId(), after)).tests.add(test);
  }

  /**
   * Adds a finding after all tests: to the engine last tested up to that day, else to the one
   * tested next, between the same works. Where none was tested there it says nothing of any test
   * and is left out, but for the engine in service.
   */
  void add(Finding finding) {
    long after =
        restarts.stream().filter(restart -> !restart.isBefore(finding.inspectedOn())).count();
    Optional<Key> tested = Optional.empty();
    for (Map.Entry<Key, Content> entry : contents.entrySet()) {
      boolean same = entry.getKey().restartsAfter() == after;
      boolean earlier =
          entry.getValue().tests.stream().anyMatch(t -> !day(t).isAfter(finding.inspectedOn()));
      tested = same && (earlier || tested.isEmpty()) ? Optional.of(entry.getKey()) : tested;
    }
    Key key = tested.orElse(new Key(inService.engineId(), after));
    if (tested.isPresent() || after == 0) {
      content(key).findings.add(finding);
    }
  }

  private static LocalDate day(SettledTest test) {
    return test.row().testedAt().toLocalDate();
  }

  private Content content(Key key) {
    return contents.computeIfAbsent(key, k -> new Content());
  }

  /** All stretches in the order of their tests, that of the engine in service last. */
  List<Segment> inOrder(Predicate<String> original) {
    Content now = contents.getOrDefault(inService, new Content());
    contents.remove(inService);
    contents.put(inService, now);
    List<Segment> segments = new ArrayList<>();
    contents.forEach(
        (key, content) ->
            segments.add(
                new Segment(
                    key.engineId(),
                    original.test(key.engineId()),
                    content.tests,
                    content.findings)));
    return segments;
  }
}

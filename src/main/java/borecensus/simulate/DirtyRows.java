package borecensus.simulate;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * The rows that are spoiled on purpose. Each is made from the row of a sound test and stands right
 * after it; sound tests stay as they are, save that a corrected one first stands with a slip.
 */
final class DirtyRows {
  /** What can be planted besides the row codes. */
  static final List<String> OTHERS = List.of("exact_repeat", "corrected");

  /** What the truth says of a row that a later or equal one replaces. */
  static final String SUPERSEDED = "superseded";

  private final Map<String, List<SheetRow>> after = new TreeMap<>();
  private final Map<String, SheetRow> inPlace = new TreeMap<>();

  private DirtyRows() {}

  /**
   * Plants the rows that the scenario asks for.
   *
   * @throws InvalidScenarioException when the fleet has no sound test fit to carry one
   */
  static DirtyRows plant(Scenario scenario, List<SimulatedTest> tests, RandomStreams streams)
      throws InvalidScenarioException {
    DirtyRows dirty = new DirtyRows();
    Donors donors = new Donors(tests);
    RowSpoiler spoiler = new RowSpoiler(scenario.asOf());
    List<String> problems = new ArrayList<>();
    Set<String> used = new HashSet<>();
    for (var wanted : new TreeMap<>(scenario.dirtyRows()).entrySet()) {
      String code = wanted.getKey();
      Draws draws = streams.stream("dirty", code);
      for (int i = 0; i < wanted.getValue(); i++) {
        List<SimulatedTest> fit =
            donors.fitFor(code).stream().filter(t -> !used.contains(t.testId())).toList();
        if (fit.isEmpty()) {
          problems.add("dirty_rows " + code + ": no sound test is left to make row " + (i + 1));
          break;
        }
        SimulatedTest donor = draws.pick(fit);
        used.add(donor.testId());
        dirty.add(code, donor, spoiler.spoil(code, donor, i));
      }
    }
    if (!problems.isEmpty()) {
      throw new InvalidScenarioException(problems);
    }
    return dirty;
  }

  private void add(String code, SimulatedTest donor, SheetRow row) {
    if (code.equals("corrected")) {
      inPlace.put(donor.testId(), row);
    } else {
      after.computeIfAbsent(donor.testId(), id -> new ArrayList<>()).add(row);
    }
  }

  /** The rows planted after a test's own. */
  List<SheetRow> after(SimulatedTest test) {
    return after.getOrDefault(test.testId(), List.of());
  }

  /** The first, mistaken version of a test that a later file corrects. */
  Optional<SheetRow> inPlaceOf(SimulatedTest test) {
    return Optional.ofNullable(inPlace.get(test.testId()));
  }
}

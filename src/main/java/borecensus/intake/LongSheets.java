package borecensus.intake;

import borecensus.domain.RowCode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Puts the one-cylinder records of a long-form file together to tests, wherever in the file they
 * stand. A record that contradicts an earlier one of its test is refused, and one that says the
 * same again is a repeat. Remarks may differ from cylinder to cylinder, and first-stroke readings
 * may stand on one record or on all.
 */
final class LongSheets {

  /** By test_id, then by what all records of a test share; both in file order. */
  private final Map<String, Map<String, LongTest>> tests = new LinkedHashMap<>();

  private final List<RowRefusal> refusals = new ArrayList<>();
  private final List<RowPlace> repeats = new ArrayList<>();

  /** Takes one decoded record. */
  void add(SheetRow record) {
    LongTest test =
        tests
            .computeIfAbsent(record.testId(), id -> new LinkedHashMap<>())
            .computeIfAbsent(record.heading(), heading -> new LongTest(record));
    int cylinder = record.readings().length;
    double reading = record.readings()[cylinder - 1];
    int otherFirst = test.otherFirstReading(record);
    if (otherFirst > 0) {
      String column = SheetColumn.FIRST_PREFIX + otherFirst;
      String value = number(record.firstReadings()[otherFirst - 1]);
      refuse(record.place(), test, column, value, "has another first-stroke reading there");
    } else if (!test.states(cylinder)) {
      test.take(record);
    } else if (Double.compare(test.reading(cylinder), reading) == 0) {
      repeats.add(record.place());
    } else {
      String detail = "has another reading of cylinder " + cylinder;
      refuse(record.place(), test, SheetColumn.PRESSURE.columnName(), number(reading), detail);
    }
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "" : String.valueOf(value);
  }

  private void refuse(
      RowPlace place, LongTest standing, String column, String value, String detail) {
    SheetRow first = standing.row();
    String message =
        "test '%s' stands in row %d and %s"
            .formatted(first.testId(), first.place().rowNumber(), detail);
    refusals.add(RowRefusal.of(place, RowCode.DUPLICATE_OF, column, value, message));
  }

  /** The tests in the order of their first records; those without any reading become refusals. */
  List<SheetRow> close() {
    List<SheetRow> complete = new ArrayList<>();
    for (Map<String, LongTest> sameId : tests.values()) {
      LongTest standing = standing(sameId.values());
      sameId.values().stream()
          .filter(other -> other != standing)
          .forEach(other -> refuseAll(other, standing));
      SheetRow row = standing.row();
      if (row.hasReading()) {
        complete.add(row);
      } else {
        refuseEmpty(row);
      }
    }
    return complete;
  }

  /** The first to come, but for a slip on a single record where others agree with each other. */
  private static LongTest standing(Collection<LongTest> sameId) {
    return sameId.stream()
        .filter(test -> test.rowNumbers().size() > 1)
        .findFirst()
        .orElseGet(() -> sameId.iterator().next());
  }

  private void refuseAll(LongTest other, LongTest standing) {
    SheetRow row = other.row();
    String column = SheetColumn.TEST_ID.columnName();
    for (long rowNumber : other.rowNumbers()) {
      RowPlace place = new RowPlace(row.sourceFile(), rowNumber);
      refuse(place, standing, column, row.testId(), "differs in more than the cylinder");
    }
  }

  private void refuseEmpty(SheetRow row) {
    for (long rowNumber : row.rowNumbers()) {
      refusals.add(
          RowRefusal.of(
              new RowPlace(row.sourceFile(), rowNumber),
              RowCode.MISSING_READING,
              SheetColumn.PRESSURE.columnName(),
              "",
              "no cylinder of test '" + row.testId() + "' has a reading"));
    }
  }

  /** Records refused while putting tests together. */
  List<RowRefusal> refusals() {
    return List.copyOf(refusals);
  }

  /** Records that repeat an earlier one of their test word for word. */
  List<RowPlace> repeats() {
    return List.copyOf(repeats);
  }
}

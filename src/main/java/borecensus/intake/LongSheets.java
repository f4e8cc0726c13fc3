package borecensus.intake;

import borecensus.domain.RowCode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Puts the one-cylinder records of a long-form file together to tests, wherever in the file they
 * stand. A record that contradicts an earlier one of its test is refused; an exact repeat joins the
 * test, so that the ledger can count it as superseded.
 */
final class LongSheets {

  private static final class OpenTest {
    private final SheetRow first;
    private final List<Long> rowNumbers = new ArrayList<>();
    private double[] readings = new double[0];
    private boolean[] stated = new boolean[0];

    OpenTest(SheetRow first) {
      this.first = first;
    }

    void state(int cylinder, double reading) {
      if (cylinder > readings.length) {
        int known = readings.length;
        readings = Arrays.copyOf(readings, cylinder);
        stated = Arrays.copyOf(stated, cylinder);
        Arrays.fill(readings, known, cylinder, Double.NaN);
      }
      readings[cylinder - 1] = reading;
      stated[cylinder - 1] = true;
    }

    boolean states(int cylinder) {
      return cylinder <= stated.length && stated[cylinder - 1];
    }
  }

  private final Map<String, OpenTest> tests = new LinkedHashMap<>();
  private final List<RowRefusal> refusals = new ArrayList<>();
  private final List<RowPlace> repeats = new ArrayList<>();

  /** Takes one decoded record. */
  void add(SheetRow record) {
    OpenTest test = tests.computeIfAbsent(record.testId(), id -> new OpenTest(record));
    int cylinder = record.readings().length;
    double reading = record.readings()[cylinder - 1];
    if (!record.heading().equals(test.first.heading())) {
      refuse(record, SheetColumn.TEST_ID, record.testId(), "it differs in more than the cylinder");
    } else if (!test.states(cylinder)) {
      test.state(cylinder, reading);
      test.rowNumbers.add(record.rowNumbers().get(0));
    } else if (Double.compare(test.readings[cylinder - 1], reading) == 0) {
      repeats.add(record.place());
    } else {
      refuse(
          record,
          SheetColumn.PRESSURE,
          String.valueOf(reading),
          "cylinder " + cylinder + " has another reading in the same test");
    }
  }

  private void refuse(SheetRow record, SheetColumn column, String value, String detail) {
    String first = "row " + tests.get(record.testId()).first.rowNumbers().get(0);
    refusals.add(
        RowRefusal.of(
            record.place(),
            RowCode.DUPLICATE_OF,
            column.columnName(),
            value,
            "test '" + record.testId() + "' stands in " + first + " already and " + detail));
  }

  /** The tests in the order of their first records; those without any reading become refusals. */
  List<SheetRow> close() {
    List<SheetRow> complete = new ArrayList<>();
    for (OpenTest test : tests.values()) {
      SheetRow row = test.first.withReadings(test.rowNumbers, test.readings);
      if (row.hasReading()) {
        complete.add(row);
      } else {
        refuseEmpty(row);
      }
    }
    return complete;
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

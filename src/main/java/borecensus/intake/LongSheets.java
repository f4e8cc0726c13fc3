package borecensus.intake;

import borecensus.domain.RowCode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Puts the one-cylinder records of a long-form file together to tests, wherever in the file they
 * stand. A record that contradicts an earlier one of its test is refused, and one that says the
 * same again is a repeat. Remarks may differ from cylinder to cylinder, and first-stroke readings
 * may stand on one record or on all.
 */
final class LongSheets {

  private static final class OpenTest {
    private final SheetRow first;
    private final List<Long> rowNumbers = new ArrayList<>();
    private final Set<String> remarks = new LinkedHashSet<>();
    private final Set<Integer> stated = new TreeSet<>();
    private double[] readings = new double[0];
    private double[] firstReadings = new double[0];

    OpenTest(SheetRow first) {
      this.first = first;
    }

    void take(SheetRow record) {
      rowNumbers.add(record.rowNumbers().get(0));
      stated.add(record.readings().length);
      readings = merged(readings, record.readings());
      firstReadings = merged(firstReadings, record.firstReadings());
      if (!record.remarks().isEmpty()) {
        remarks.add(record.remarks());
      }
    }

    SheetRow row() {
      double[] read = SheetDecoder.trimmed(readings);
      return first.gathered(rowNumbers, String.join("; ", remarks), read, firstReadings);
    }

    private static double[] merged(double[] known, double[] more) {
      double[] merged = Arrays.copyOf(known, Math.max(known.length, more.length));
      Arrays.fill(merged, known.length, merged.length, Double.NaN);
      for (int i = 0; i < more.length; i++) {
        merged[i] = Double.isNaN(more[i]) ? merged[i] : more[i];
      }
      return merged;
    }

    /**
     * The cylinder, from 1, whose first-stroke reading is another one here; 0 when there is none.
     */
    int otherFirstReading(SheetRow record) {
      double[] more = record.firstReadings();
      for (int i = 0; i < Math.min(more.length, firstReadings.length); i++) {
        // A comparison with NaN is false: what is not stated contradicts nothing.
        if (Math.abs(more[i] - firstReadings[i]) > 0) {
          return i + 1;
        }
      }
      return 0;
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
    int otherFirst = test.otherFirstReading(record);
    if (!record.heading().equals(test.first.heading())) {
      String column = SheetColumn.TEST_ID.columnName();
      refuse(record, column, record.testId(), "it differs in more than the cylinder");
    } else if (otherFirst > 0) {
      String column = SheetColumn.FIRST_PREFIX + otherFirst;
      String value = number(record.firstReadings()[otherFirst - 1]);
      refuse(record, column, value, "it has another first-stroke reading");
    } else if (!test.stated.contains(cylinder)) {
      test.take(record);
    } else if (Double.compare(test.readings[cylinder - 1], reading) == 0) {
      repeats.add(record.place());
    } else {
      String detail = "cylinder " + cylinder + " has another reading in the same test";
      refuse(record, SheetColumn.PRESSURE.columnName(), number(reading), detail);
    }
  }

  private static String number(double value) {
    return Double.isNaN(value) ? "" : String.valueOf(value);
  }

  private void refuse(SheetRow record, String column, String value, String detail) {
    String first = "row " + tests.get(record.testId()).first.rowNumbers().get(0);
    refusals.add(
        RowRefusal.of(
            record.place(),
            RowCode.DUPLICATE_OF,
            column,
            value,
            "test '" + record.testId() + "' stands in " + first + " already and " + detail));
  }

  /** The tests in the order of their first records; those without any reading become refusals. */
  List<SheetRow> close() {
    List<SheetRow> complete = new ArrayList<>();
    for (OpenTest test : tests.values()) {
      SheetRow row = test.row();
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

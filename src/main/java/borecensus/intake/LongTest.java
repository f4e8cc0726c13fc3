package borecensus.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** The records of one long-form test that agree in everything but the cylinder. */
final class LongTest {
  private final SheetRow first;
  private final List<Long> rowNumbers = new ArrayList<>();
  private final Set<String> remarks = new LinkedHashSet<>();
  private final Set<Integer> stated = new TreeSet<>();
  private double[] readings = new double[0];
  private double[] firstReadings = new double[0];

  LongTest(SheetRow first) {
    this.first = first;
  }

  /** Adds a record that contradicts none taken before. */
  void take(SheetRow record) {
    rowNumbers.add(record.rowNumbers().get(0));
    stated.add(record.readings().length);
    readings = merged(readings, record.readings());
    firstReadings = merged(firstReadings, record.firstReadings());
    if (!record.remarks().isEmpty()) {
      remarks.add(record.remarks());
    }
  }

  boolean states(int cylinder) {
    return stated.contains(cylinder);
  }

  /** The reading of a cylinder that is stated; NaN when its cell was blank. */
  double reading(int cylinder) {
    return readings[cylinder - 1];
  }

  /** The records that it is made of, in file order. */
  List<Long> rowNumbers() {
    return List.copyOf(rowNumbers);
  }

  /** The sheet that its records make. */
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

  /** The cylinder, from 1, whose first-stroke reading is another one here; 0 when there is none. */
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

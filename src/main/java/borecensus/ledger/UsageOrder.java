package borecensus.ledger;

import borecensus.intake.SheetColumn;
import borecensus.intake.SheetRow;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/**
 * Which tests of one engine have a distance (or hours) that does not rise with the date. The fewest
 * possible are picked out: the longest run of rising values stands (longest non-decreasing
 * subsequence), so that one mistyped odometer costs one test and not all that follow it. Of several
 * the one with the lowest end stands, since a digit too many would outrank every test to come; of
 * two tests that contradict each other the first.
 */
final class UsageOrder {
  /** Two counters may be read a little apart on the same day, and miles are rounded. */
  private static final double TOLERANCE = 2;

  private UsageOrder() {}

  /**
   * For each row, oldest first, the counter that does not rise with the date; empty when all do. An
   * odometer in miles counts as one in kilometres.
   */
  static List<Optional<SheetColumn>> fallen(List<SheetRow> rowsByTime) {
    boolean[] byDistance = rising(values(rowsByTime, SheetRow::odometerKm));
    boolean[] byHours = rising(values(rowsByTime, SheetRow::engineHours));
    List<Optional<SheetColumn>> fallen = new ArrayList<>();
    for (int i = 0; i < byDistance.length; i++) {
      SheetColumn hours = byHours[i] ? null : SheetColumn.ENGINE_HOURS;
      fallen.add(Optional.ofNullable(byDistance[i] ? hours : SheetColumn.ODOMETER_KM));
    }
    return fallen;
  }

  private static double[] values(List<SheetRow> rows, ToDoubleFunction<SheetRow> value) {
    double[] values = new double[rows.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = value.applyAsDouble(rows.get(i));
    }
    return values;
  }

  /** Marks the longest non-decreasing run; a NaN is always in order. */
  static boolean[] rising(double[] values) {
    int[] length = new int[values.length];
    int[] before = new int[values.length];
    int end = -1;
    for (int i = 0; i < values.length; i++) {
      before[i] = -1;
      length[i] = Double.isNaN(values[i]) ? 0 : 1;
      for (int j = 0; j < i && length[i] > 0; j++) {
        if (values[j] <= values[i] + TOLERANCE && length[j] + 1 > length[i]) {
          length[i] = length[j] + 1;
          before[i] = j;
        }
      }
      end = end < 0 || better(values, length, i, end) ? i : end;
    }
    boolean[] inOrder = new boolean[values.length];
    for (int i = 0; i < values.length; i++) {
      inOrder[i] = Double.isNaN(values[i]);
    }
    for (int i = end; i >= 0; i = before[i]) {
      inOrder[i] = true;
    }
    return inOrder;
  }

  private static boolean better(double[] values, int[] length, int i, int end) {
    boolean lessRise = length[i] > 1 && values[i] < values[end];
    return length[i] > length[end] || (length[i] == length[end] && lessRise);
  }
}

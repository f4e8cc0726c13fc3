package borecensus.benchmark;

import java.util.Locale;
import java.util.Optional;

/**
 * One figure of one run, as a line that the measuring process prints.
 *
 * @param run what was run, such as night
 * @param step of the run; "all" for the whole of it
 * @param measure with its unit, such as wall_s
 */
record Figure(String run, String step, String measure, double value) {
  static final String WHOLE = "all";
  private static final String TAG = "figure";

  String line() {
    return String.format(Locale.ROOT, "%s\t%s\t%s\t%s\t%s", TAG, run, step, measure, value);
  }

  /** The figure in a line; empty where the line is something else. */
  static Optional<Figure> parse(String line) {
    String[] cells = line.split("\t", -1);
    return cells.length == 5 && cells[0].equals(TAG)
        ? Optional.of(new Figure(cells[1], cells[2], cells[3], Double.parseDouble(cells[4])))
        : Optional.empty();
  }
}

package borecensus.evaluate;

import borecensus.domain.Family;
import java.util.List;
import java.util.stream.IntStream;

/** What may be wrong with an engine, and how common it is among faults. */
enum FaultKind {
  CYLINDER(0.30, -1, 1, List.of(Course.STEP, Course.GROWTH)),
  ADJACENT_PAIR(0.10, -1, 1, List.of(Course.STEP, Course.GROWTH)),
  BANK(0.06, -1, 0.7, List.of(Course.STEP, Course.GROWTH)),
  OVERALL(0.14, -1, 0.7, List.of(Course.STEP, Course.GROWTH)),
  HIGH(0.08, 1, 0.7, List.of(Course.STEP, Course.GROWTH)),
  FALLING_CYLINDER(0.20, -1, 1, List.of(Course.GROWTH)),
  FALLING_LEVEL(0.12, -1, 0.7, List.of(Course.GROWTH));

  private final double weight;
  private final int sign;
  private final double scale;
  private final List<Course> courses;

  FaultKind(double weight, int sign, double scale, List<Course> courses) {
    this.weight = weight;
    this.sign = sign;
    this.scale = scale;
    this.courses = courses;
  }

  /** Share among faults, before kinds that an engine cannot have are left out. */
  double weight() {
    return weight;
  }

  /** Equally common courses. */
  List<Course> courses() {
    return courses;
  }

  /** Shift of the log reading that a severity (share of the reading) means. */
  double logShift(double severity) {
    return Math.log1p(sign * scale * severity);
  }

  /** Equally common groups of cylinders, from 0; empty when the engine cannot have this fault. */
  List<int[]> sets(Family family) {
    int n = family.cylinders();
    return switch (this) {
      case CYLINDER, FALLING_CYLINDER, HIGH ->
          n == 1 ? List.of() : IntStream.range(0, n).mapToObj(c -> new int[] {c}).toList();
      case ADJACENT_PAIR ->
          n == 2
              ? List.of()
              : family.banks().adjacentPairs().stream()
                  .map(pair -> new int[] {pair.first() - 1, pair.second() - 1})
                  .toList();
      case BANK ->
          family.banks().banks().stream()
              .filter(bank -> bank.size() > 1 && bank.size() < n)
              .map(bank -> bank.stream().mapToInt(c -> c - 1).toArray())
              .toList();
      case OVERALL, FALLING_LEVEL -> List.of(IntStream.range(0, n).toArray());
    };
  }
}

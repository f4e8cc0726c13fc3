package borecensus.evaluate;

import borecensus.domain.Family;
import java.util.ArrayList;
import java.util.List;

/**
 * One way in which an engine may be faulty, over all sizes.
 *
 * @param cylinders from 0
 * @param reach share of its size at each test
 * @param shifts of the log reading, equally probable
 * @param logWeight log share among faults
 */
record FaultCase(int[] cylinders, double[] reach, double[] shifts, double logWeight) {

  /** One usual interval between tests: how long before the first test a fault may have come. */
  private static final double BEFORE_FIRST = 0.25;

  /**
   * How finely onsets and sizes are divided.
   *
   * @param onsets of growing faults
   * @param sizes classes of severity of equal probability
   */
  record Fineness(int onsets, int sizes) {
    static final Fineness FULL = new Fineness(24, 32);
    static final Fineness QUICK = new Fineness(8, 12);
  }

  /** The usage from which on faults begin: uniformly from here to the last test. */
  static double earliestOnset(double[] usage) {
    return Math.max(0, usage[0] - BEFORE_FIRST);
  }

  /** Every case of an engine with these tests; the weights sum to one. */
  static List<FaultCase> all(Family family, double[] usage, FleetPlan plan, Fineness fineness) {
    List<FaultCase> cases = new ArrayList<>();
    List<FaultKind> kinds = plan.mix().kinds(family);
    double[] weights = plan.mix().weights(family);
    double[] severities = plan.severity().classes(fineness.sizes());
    for (int k = 0; k < weights.length; k++) {
      FaultKind kind = kinds.get(k);
      double[] shifts = new double[severities.length];
      for (int i = 0; i < shifts.length; i++) {
        shifts[i] = kind.logShift(severities[i]);
      }
      List<int[]> sets = kind.sets(family);
      double weight = weights[k] / sets.size() / kind.courses().size();
      for (int[] set : sets) {
        for (Course course : kind.courses()) {
          for (Onset onset : onsets(course, usage, fineness.onsets())) {
            double[] reach = course.reaches(usage, onset.at());
            cases.add(new FaultCase(set, reach, shifts, Math.log(weight * onset.share())));
          }
        }
      }
    }
    return cases;
  }

  private record Onset(double at, double share) {}

  /** Steps between the same tests are alike; growth is summed at the middles of even parts. */
  private static List<Onset> onsets(Course course, double[] usage, int parts) {
    double from = earliestOnset(usage);
    double span = usage[usage.length - 1] - from;
    List<Onset> onsets = new ArrayList<>();
    if (course == Course.STEP) {
      double before = from;
      for (double x : usage) {
        onsets.add(new Onset(x, (x - before) / span));
        before = x;
      }
      return onsets;
    }
    int needed = usage.length == 1 ? 1 : parts;
    for (int i = 0; i < needed; i++) {
      onsets.add(new Onset(from + span * (i + 0.5) / needed, 1.0 / needed));
    }
    return onsets;
  }
}

package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * How far a fault has come at each test, as a share of its size at the last one.
 *
 * <p>A fault either comes at once and stays, or grows. One that stays is there at the first test
 * ({@value #SINCE_FIRST} of the prior weight) or comes, with equal weight, at any later one. One
 * that grows does so in proportion to usage: from half its size at the first test to the whole at
 * the last ({@value #SINCE_FIRST} again), or from nothing at any test but the last two. These
 * weights are a choice (no source).
 */
final class OnsetProfiles {
  private static final double SINCE_FIRST = 0.5;
  private static final double LOG_TWO = Math.log(2);

  /** {@link #steps} by number of tests: they depend on nothing else. */
  private static final List<List<Profile>> STEPS = stepsByTests();

  private OnsetProfiles() {}

  /**
   * One course over the tests.
   *
   * @param reach share of the final size at each test; shared, not copied: it is read only
   * @param logWeight log prior weight among its kind
   */
  record Profile(double[] reach, double logWeight) {
    private Profile halved() {
      return new Profile(reach, logWeight - LOG_TWO);
    }
  }

  /** Courses of a fault that comes at once and stays; the weights sum to one. */
  static List<Profile> steps(double[] usage) {
    return usage.length < STEPS.size() ? STEPS.get(usage.length) : steps(usage.length);
  }

  private static List<Profile> steps(int tests) {
    List<Profile> profiles = new ArrayList<>();
    for (int onset = 0; onset < tests; onset++) {
      double[] step = new double[tests];
      Arrays.fill(step, onset, tests, 1);
      profiles.add(new Profile(step, logWeight(onset, tests - 1)));
    }
    return Collections.unmodifiableList(profiles);
  }

  private static List<List<Profile>> stepsByTests() {
    List<List<Profile>> steps = new ArrayList<>();
    for (int tests = 0; tests <= EngineReadings.MAX_TESTS; tests++) {
      steps.add(steps(tests));
    }
    return steps;
  }

  /**
   * Courses of a fault that grows; the weights sum to one. With a single test it has come whole.
   */
  static List<Profile> ramps(double[] usage) {
    int last = usage.length - 1;
    if (!rises(usage, 0)) {
      return steps(usage);
    }
    List<Profile> profiles = new ArrayList<>();
    double[] half = ramp(usage, 0);
    for (int t = 0; t < half.length; t++) {
      half[t] = 0.5 + 0.5 * half[t];
    }
    // One course less than steps: a growth that starts at the last test but one is a step as far
    // as anyone can see.
    List<Profile> weighted = STEPS.size() > last ? STEPS.get(last) : steps(last);
    profiles.add(new Profile(half, weighted.get(0).logWeight()));
    for (int from = 0; from < last - 1; from++) {
      profiles.add(new Profile(ramp(usage, from), weighted.get(from + 1).logWeight()));
    }
    return profiles;
  }

  /** The weight of one course among {@code last + 1}, of which the first has a share of its own. */
  private static double logWeight(int course, int last) {
    if (last == 0) {
      return 0;
    }
    return course == 0 ? Math.log(SINCE_FIRST) : Math.log((1 - SINCE_FIRST) / last);
  }

  /** Courses of a fault of either kind. */
  static List<Profile> any(double[] usage) {
    if (usage.length == 1) {
      return steps(usage);
    }
    return either(steps(usage), ramps(usage));
  }

  /** The same of at least two tests, from the courses of either kind. */
  static List<Profile> either(List<Profile> steps, List<Profile> ramps) {
    List<Profile> profiles = new ArrayList<>(steps.size() + ramps.size());
    for (Profile step : steps) {
      profiles.add(step.halved());
    }
    for (Profile ramp : ramps) {
      profiles.add(ramp.halved());
    }
    return profiles;
  }

  private static boolean rises(double[] usage, int from) {
    return usage[usage.length - 1] > usage[from];
  }

  /** From 0 at this test to 1 at the last, in proportion to usage. */
  private static double[] ramp(double[] usage, int from) {
    double[] ramp = new double[usage.length];
    double whole = usage[usage.length - 1] - usage[from];
    if (whole <= 0) {
      ramp[usage.length - 1] = 1;
      return ramp;
    }
    for (int t = from; t < usage.length; t++) {
      ramp[t] = Math.max(0, Math.min(1, (usage[t] - usage[from]) / whole));
    }
    return ramp;
  }
}

package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How far a fault has come at each test, as a share of its size at the last one.
 *
 * <p>A fault that is there at the first test either stays or doubles until the last ({@value
 * #GROWING_SHARE} of the prior weight). One that comes later starts, with equal prior weight, at
 * any later test, and either stays as it came or grows in proportion to usage; both have half the
 * weight. These weights are a choice (no source).
 */
final class OnsetProfiles {
  private static final double GROWING_SHARE = 0.3;

  private OnsetProfiles() {}

  /**
   * One course over the tests.
   *
   * @param reach share of the final size at each test
   * @param logWeight log prior weight among its kind
   */
  record Profile(double[] reach, double logWeight) {}

  /** Courses of a fault that is there at the first test; the weights sum to one. */
  static List<Profile> sinceFirst(double[] usage) {
    double[] steady = new double[usage.length];
    Arrays.fill(steady, 1);
    if (!rises(usage, 0)) {
      return List.of(new Profile(steady, 0));
    }
    double[] growing = ramp(usage, 0);
    for (int t = 0; t < growing.length; t++) {
      growing[t] = 0.5 + 0.5 * growing[t];
    }
    return List.of(
        new Profile(steady, Math.log(1 - GROWING_SHARE)),
        new Profile(growing, Math.log(GROWING_SHARE)));
  }

  /** Courses of a fault that comes later; the weights sum to one. Empty with a single test. */
  static List<Profile> later(double[] usage) {
    List<Profile> profiles = new ArrayList<>();
    int last = usage.length - 1;
    double logOnset = -Math.log(last);
    for (int onset = 1; onset <= last; onset++) {
      double[] step = new double[usage.length];
      Arrays.fill(step, onset, usage.length, 1);
      if (onset < last && rises(usage, onset - 1)) {
        profiles.add(new Profile(step, logOnset - Math.log(2)));
        profiles.add(new Profile(ramp(usage, onset - 1), logOnset - Math.log(2)));
      } else {
        profiles.add(new Profile(step, logOnset));
      }
    }
    return profiles;
  }

  /** Courses of a fault of which half are there at the first test. */
  static List<Profile> any(double[] usage) {
    if (usage.length == 1) {
      return sinceFirst(usage);
    }
    List<Profile> profiles = new ArrayList<>(sinceFirst(usage));
    profiles.addAll(later(usage));
    return profiles.stream().map(p -> new Profile(p.reach(), p.logWeight() - Math.log(2))).toList();
  }

  private static boolean rises(double[] usage, int from) {
    return usage[usage.length - 1] > usage[from];
  }

  /** From 0 at this test to 1 at the last, in proportion to usage. */
  private static double[] ramp(double[] usage, int from) {
    double[] ramp = new double[usage.length];
    double whole = usage[usage.length - 1] - usage[from];
    for (int t = from; t < usage.length; t++) {
      ramp[t] = Math.max(0, Math.min(1, (usage[t] - usage[from]) / whole));
    }
    return ramp;
  }
}

package borecensus.statistics;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Restricted log likelihood of the spreads of {@link RandomEffects}, with what is believed of them,
 * and where it is highest. A group of values with errors d and a common effect of variance s has
 * the covariance diag(d) + s 11', whose inverse and determinant need only the sums of 1/d, y/d and
 * y^2/d (Sherman and Morrison, 1950, Ann. Math. Stat. 21:124-127).
 */
final class RestrictedLikelihood {
  /** Bounds of the spreads, as multiples of the believed one. */
  private static final double LEAST = 0.01;

  private static final double MOST = 30;

  private static final double[] UNIT_STARTS = {0.03, 0.1, 0.3, 0.6, 1, 2, 4, 10};
  private static final double[] GROUP_STARTS = {0, 0.3, 1, 3};
  private static final double FIRST_STEP = 0.25;
  private static final double LAST_STEP = 1e-6;

  private final SortedMap<String, List<RandomEffects.Shown>> groups = new TreeMap<>();
  private final RandomEffects.Beliefs beliefs;

  RestrictedLikelihood(List<RandomEffects.Shown> units, RandomEffects.Beliefs beliefs) {
    this.beliefs = beliefs;
    units.stream()
        .map(RandomEffects.Shown::group)
        .forEach(g -> groups.put(g, units.stream().filter(u -> u.group().equals(g)).toList()));
  }

  /** Standard deviations between units of a group and between groups. */
  record Spreads(double unitSd, double groupSd) {}

  /** What a group says, once its own effect is allowed for. */
  private record Sums(double precision, double product, double square, double logDeterminant) {

    Sums plus(Sums other) {
      return new Sums(
          precision + other.precision,
          product + other.product,
          square + other.square,
          logDeterminant + other.logDeterminant);
    }
  }

  /**
   * One group cannot show how groups differ, nor can groups of one unit each: all is then put down
   * to units.
   */
  private boolean groupsTell() {
    int units = groups.values().stream().mapToInt(List::size).sum();
    return groups.size() > 1 && groups.size() < units;
  }

  /** The highest point: the best of a coarse grid, then steps along either axis, halved. */
  Spreads best() {
    Spreads best = new Spreads(beliefs.unitSd(), 0);
    for (double unit : UNIT_STARTS) {
      for (double group : groupsTell() ? GROUP_STARTS : new double[] {0}) {
        best = higher(best, new Spreads(unit * beliefs.unitSd(), group * beliefs.unitSd()));
      }
    }
    for (double step = FIRST_STEP; step > LAST_STEP; step /= 2) {
      Spreads before;
      do {
        before = best;
        best = higher(best, moved(before, step, 0));
        best = higher(best, moved(before, -step, 0));
        best = higher(best, moved(best, 0, step));
        best = higher(best, moved(best, 0, -step));
      } while (!best.equals(before));
    }
    return best;
  }

  private Spreads moved(Spreads from, double logUnit, double group) {
    double scale = beliefs.unitSd();
    double unit = from.unitSd() / scale * Math.exp(logUnit);
    double other = groupsTell() ? from.groupSd() / scale + group : 0;
    return new Spreads(
        scale * Math.max(LEAST, Math.min(MOST, unit)), scale * Math.max(0, Math.min(MOST, other)));
  }

  private Spreads higher(Spreads present, Spreads other) {
    return value(other) > value(present) ? other : present;
  }

  /** Up to a constant. */
  double value(Spreads spreads) {
    Sums all = all(spreads);
    double quadratic = all.square() - all.product() * all.product() / all.precision();
    double unit = spreads.unitSd() / beliefs.unitSd();
    double group = spreads.groupSd() / beliefs.unitSd();
    double believed = beliefs.units() * (2 * Math.log(unit) + 1 / (unit * unit) + group * group);
    return -(all.logDeterminant() + Math.log(all.precision()) + quadratic + believed) / 2;
  }

  /** The mean by generalised least squares. */
  double mean(Spreads spreads) {
    Sums all = all(spreads);
    return beliefs.mean().mean() + all.product() / all.precision();
  }

  /** The best prediction of every group's centre. */
  SortedMap<String, Double> centres(Spreads spreads, double mean) {
    SortedMap<String, Double> centres = new TreeMap<>();
    double variance = spreads.groupSd() * spreads.groupSd();
    groups.forEach(
        (id, units) -> {
          Sums sums = sums(units, spreads);
          double off = sums.product() - sums.precision() * (mean - beliefs.mean().mean());
          centres.put(id, mean + variance * off);
        });
    return centres;
  }

  private Sums all(Spreads spreads) {
    Sums all = new Sums(1 / beliefs.mean().variance(), 0, 0, 0);
    for (List<RandomEffects.Shown> units : groups.values()) {
      all = all.plus(sums(units, spreads));
    }
    return all;
  }

  /** Of values less the believed mean. */
  private Sums sums(List<RandomEffects.Shown> units, Spreads spreads) {
    double precision = 0;
    double product = 0;
    double square = 0;
    double logDeterminant = 0;
    for (RandomEffects.Shown unit : units) {
      double variance = unit.variance() + spreads.unitSd() * spreads.unitSd();
      double value = unit.value() - beliefs.mean().mean();
      precision += 1 / variance;
      product += value / variance;
      square += value * value / variance;
      logDeterminant += Math.log(variance);
    }
    double between = spreads.groupSd() * spreads.groupSd();
    double common = 1 + between * precision;
    return new Sums(
        precision / common,
        product / common,
        square - between * product * product / common,
        logDeterminant + Math.log(common));
  }
}

package borecensus.statistics;

import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Units of which each has shown a value with a known error, in groups of units alike: value = mean
 * + group effect + unit effect + error, all normal. How far units and groups truly differ is found
 * by restricted maximum likelihood (Patterson and Thompson, 1971, Biometrika 58:545-554; for known
 * errors Viechtbauer, 2005, J. Educ. Behav. Stat. 30:261-293), drawn to what is believed. Each
 * unit's best prediction lies between its own value and that of its group, the group's between its
 * own and the mean (Robinson, 1991, Stat. Sci. 6:15-32).
 *
 * <p>One group, or none that differ, is the ordinary model of random effects. Values with infinite
 * variance say nothing. Without any other, the beliefs are returned.
 */
public final class RandomEffects {
  private final double mean;
  private final double unitSd;
  private final double groupSd;
  private final SortedMap<String, Double> centres;

  private RandomEffects(
      double mean, double unitSd, double groupSd, SortedMap<String, Double> centres) {
    this.mean = mean;
    this.unitSd = unitSd;
    this.groupSd = groupSd;
    this.centres = Collections.unmodifiableSortedMap(centres);
  }

  /**
   * What one unit has shown.
   *
   * @param group units alike
   * @param variance of the value's error; infinite where nothing was shown
   */
  public record Shown(String group, double value, double variance) {

    /**
     * What data alone say, where a normal posterior came of them and a normal prior: the posterior
     * divided by the prior (the cavity of Minka, 2001, Uncertainty in Artificial Intelligence
     * 17:362-369).
     */
    public static Shown without(Normal prior, Normal posterior, String group) {
      double precision = 1 / posterior.variance() - 1 / prior.variance();
      if (!(precision > 1e-6 / prior.variance())) {
        return new Shown(group, prior.mean(), Double.POSITIVE_INFINITY);
      }
      double sum = posterior.mean() / posterior.variance() - prior.mean() / prior.variance();
      return new Shown(group, sum / precision, 1 / precision);
    }
  }

  /** A normal distribution. */
  public record Normal(double mean, double variance) {}

  /**
   * What is believed before.
   *
   * @param mean of all units; an infinite variance leaves it to the data
   * @param unitSd between units of a group: mode of a scaled inverse chi-square distribution
   * @param units how many units that counts for. Between groups the same is the precision of a
   *     half-normal prior (Gelman, 2006, Bayesian Anal. 1:515-534), which is at its highest where
   *     groups do not differ
   */
  public record Beliefs(Normal mean, double unitSd, double units) {

    public Beliefs {
      if (!(unitSd > 0 && units >= 0)) {
        throw new IllegalArgumentException("a believed spread must be positive");
      }
    }
  }

  /** Fits the model. The order of the units matters to rounding only. */
  public static RandomEffects fit(Collection<Shown> units, Beliefs beliefs) {
    List<Shown> used = units.stream().filter(u -> Double.isFinite(u.variance())).toList();
    if (used.isEmpty()) {
      return new RandomEffects(beliefs.mean().mean(), beliefs.unitSd(), 0, new TreeMap<>());
    }
    RestrictedLikelihood likelihood = new RestrictedLikelihood(used, beliefs);
    RestrictedLikelihood.Spreads spreads = likelihood.best();
    double mean = likelihood.mean(spreads);
    return new RandomEffects(
        mean, spreads.unitSd(), spreads.groupSd(), likelihood.centres(spreads, mean));
  }

  /** The mean of all units. */
  public double mean() {
    return mean;
  }

  /** Standard deviation between the units of a group. */
  public double unitSd() {
    return unitSd;
  }

  /** Standard deviation between groups; zero where they do not differ. */
  public double groupSd() {
    return groupSd;
  }

  /** What a unit of this group is expected to be; the mean for a group without units. */
  public double centre(String group) {
    return centres.getOrDefault(group, mean);
  }

  /** The best prediction of this unit. */
  public double predicted(Shown unit) {
    double centre = centre(unit.group());
    double own = unitSd * unitSd / (unitSd * unitSd + unit.variance());
    return centre + own * (unit.value() - centre);
  }
}

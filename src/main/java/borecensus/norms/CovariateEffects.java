package borecensus.norms;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import java.io.Serializable;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Effects of the conditions of a test, linear about the middle of each family, so that the family's
 * mean stays that of its usual conditions.
 *
 * @param byFuel one effect for each {@link Covariate}, in order
 * @param middles by family_id: median of each covariate over its trusted tests; NaN for none stated
 */
public record CovariateEffects(
    SortedMap<Fuel, List<CovariateEffect>> byFuel, SortedMap<String, List<Double>> middles)
    implements Serializable {

  private static final List<Covariate> COVARIATES = List.of(Covariate.values());

  /** Nothing is known and nothing is corrected. */
  static final CovariateEffects NONE = new CovariateEffects(new TreeMap<>(), new TreeMap<>());

  public CovariateEffects {
    byFuel = Collections.unmodifiableSortedMap(new TreeMap<>(byFuel));
    middles = KeyedMap.copyOf(middles);
  }

  /** The effect on engines of this fuel. */
  public CovariateEffect of(Fuel fuel, Covariate covariate) {
    List<CovariateEffect> effects = byFuel.get(fuel);
    return effects == null
        ? new CovariateEffect(0, covariate.priorSdLog(), 0)
        : effects.get(covariate.ordinal());
  }

  /** How much the conditions raise the log readings of a test; zero where none are stated. */
  double shiftLog(Family family, TestConditions conditions) {
    return shiftsLog(family, new TestConditions[] {conditions})[0];
  }

  /** The same of several tests, the family looked up once. */
  double[] shiftsLog(Family family, TestConditions[] conditions) {
    double[] shifts = new double[conditions.length];
    List<Double> middle = middles.get(family.familyId());
    if (middle == null) {
      return shifts;
    }
    for (Covariate covariate : COVARIATES) {
      double usual = middle.get(covariate.ordinal());
      for (int t = 0; t < shifts.length; t++) {
        double units = covariate.units(conditions[t], usual);
        shifts[t] += units == 0 ? 0 : units * of(family.fuel(), covariate).logPerUnit();
      }
    }
    return shifts;
  }

  /** Units of a covariate above the family's middle. */
  double units(Family family, Covariate covariate, TestConditions conditions) {
    List<Double> middle = middles.get(family.familyId());
    return middle == null ? 0 : covariate.units(conditions, middle.get(covariate.ordinal()));
  }

  CovariateEffects withEffects(SortedMap<Fuel, List<CovariateEffect>> newEffects) {
    return new CovariateEffects(newEffects, middles);
  }
}

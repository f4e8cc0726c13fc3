package borecensus.norms;

import borecensus.domain.Family;
import borecensus.domain.Fuel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Learns what temperature and cranking speed do to the readings of each fuel: generalised least
 * squares on the test levels, so that what differs within an engine and what differs between
 * engines count by their own errors; the mean of each family is absorbed, tests out of line count
 * less, and a normal prior about zero leaves an effect that the data do not show near zero (Hoerl
 * and Kennard, 1970, Technometrics 12:55-67).
 */
final class CovariateFit {
  private static final int KINDS = Covariate.values().length;

  private final CovariateEffects present;
  private final Map<Fuel, double[][]> information = new EnumMap<>(Fuel.class);
  private final Map<Fuel, double[]> scores = new EnumMap<>(Fuel.class);
  private final Map<Fuel, int[]> tests = new EnumMap<>(Fuel.class);

  CovariateFit(CovariateEffects present) {
    this.present = present;
  }

  /** Adds the engines of one family, their deviations corrected by the present effects. */
  void addFamily(Family family, List<EngineLevels> engines) {
    CovariateSums sums = new CovariateSums(KINDS);
    for (EngineLevels engine : engines) {
      TestConditions[] conditions = engine.readings().conditions();
      double[][] units = Zeros.of(conditions.length, KINDS);
      double[] values = new double[conditions.length];
      for (int t = 0; t < conditions.length; t++) {
        values[t] = engine.deviation()[t] + present.shiftLog(family, conditions[t]);
        for (Covariate covariate : Covariate.values()) {
          int k = covariate.ordinal();
          units[t][k] = present.units(family, covariate, conditions[t]);
        }
      }
      count(family.fuel(), conditions);
      sums.add(units, values, engine.precision(), engine.weight());
    }
    sums.addAbsorbed(
        information.computeIfAbsent(family.fuel(), f -> prior()),
        scores.computeIfAbsent(family.fuel(), f -> new double[KINDS]));
  }

  private void count(Fuel fuel, TestConditions[] conditions) {
    int[] counts = tests.computeIfAbsent(fuel, f -> new int[KINDS]);
    for (Covariate covariate : Covariate.values()) {
      counts[covariate.ordinal()] +=
          (int) Arrays.stream(conditions).filter(c -> !Double.isNaN(covariate.stated(c))).count();
    }
  }

  private static double[][] prior() {
    double[][] prior = Zeros.square(KINDS);
    for (Covariate covariate : Covariate.values()) {
      double sd = covariate.priorSdLog();
      prior[covariate.ordinal()][covariate.ordinal()] = 1 / (sd * sd);
    }
    return prior;
  }

  /** The effects with the data added so far. */
  CovariateEffects fit() {
    SortedMap<Fuel, List<CovariateEffect>> effects = new TreeMap<>();
    information.forEach(
        (fuel, matrix) -> {
          Cholesky factor = Cholesky.of(matrix);
          double[] slopes = factor.solve(scores.get(fuel));
          double[][] errors = factor.inverse();
          List<CovariateEffect> ofFuel = new ArrayList<>();
          for (int k = 0; k < KINDS; k++) {
            ofFuel.add(new CovariateEffect(slopes[k], Math.sqrt(errors[k][k]), tests.get(fuel)[k]));
          }
          effects.put(fuel, List.copyOf(ofFuel));
        });
    return present.withEffects(effects);
  }
}

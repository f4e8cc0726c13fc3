package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.random.Well19937c;
import org.junit.jupiter.api.Test;

/** Families of drawn engines, four tests each, whose true variances are known. */
class ComponentHierarchyTest {
  private static final int TESTS = 4;
  private static final double[] MEAN_LOG = {Math.log(5e-4), Math.log(2e-4)};
  private static final double[] PRIOR = {6e-4, 2.2e-4};
  private static final double[] ALL_LEARNED = {Double.NaN, Double.NaN};
  private static final PseudoEngines PSEUDO = Priors.load().of(Fuel.PETROL).pseudoEngines();

  /** Families with true logs of variance about group means. */
  private static final class Fixture {
    final SortedMap<String, List<ComponentItem>> items = new TreeMap<>();
    final SortedMap<String, String> groups = new TreeMap<>();
    final SortedMap<String, double[]> truth = new TreeMap<>();
    private final Well19937c random;

    Fixture(double groupSd, double familySd, long seed) {
      random = new Well19937c(seed);
      for (int g = 0; g < 6; g++) {
        double[] group = around(MEAN_LOG, groupSd);
        for (int f = 0; f < 6; f++) {
          add("F" + g + f, "G" + g, around(group, familySd), f % 2 == 0 ? 8 : 40);
        }
      }
    }

    private double[] around(double[] logs, double sd) {
      return Arrays.stream(logs).map(l -> l + sd * random.nextGaussian()).toArray();
    }

    private void add(String id, String group, double[] logs, int engines) {
      List<ComponentItem> list = new ArrayList<>();
      for (int e = 0; e < engines; e++) {
        list.add(engine(Math.exp(logs[0] / 2), Math.exp(logs[1] / 2)));
      }
      items.put(id, list);
      groups.put(id, group);
      truth.put(id, logs);
    }

    private ComponentItem engine(double engineSd, double testSd) {
      double engine = engineSd * random.nextGaussian();
      double[] y = new double[TESTS];
      for (int t = 0; t < TESTS; t++) {
        y[t] = engine + testSd * random.nextGaussian();
      }
      double[][] scatter = new double[TESTS][TESTS];
      double[][] ones = new double[TESTS][TESTS];
      double[][] identity = new double[TESTS][TESTS];
      for (int i = 0; i < TESTS; i++) {
        Arrays.fill(ones[i], 1);
        identity[i][i] = 1;
        for (int j = 0; j < TESTS; j++) {
          scatter[i][j] = y[i] * y[j];
        }
      }
      return new ComponentItem(
          1, 1, scatter, new double[TESTS][TESTS], MatrixPattern.all(ones, identity));
    }

    double[] fleet() {
      List<ComponentItem> all = items.values().stream().flatMap(List::stream).toList();
      return new ComponentScoring(PRIOR, new double[] {0.6, 0.6}).fit(all, PRIOR, 20);
    }

    SortedMap<String, double[]> learned() {
      return new ComponentHierarchy(items, groups, PSEUDO).fit(PRIOR, fleet(), ALL_LEARNED);
    }

    /** Every family drawn to the fleet as strongly as believed. */
    SortedMap<String, double[]> fixed() {
      double sd = PseudoEngines.logVarianceSd(PSEUDO.family());
      ComponentScoring scoring = new ComponentScoring(fleet(), new double[] {sd, sd});
      SortedMap<String, double[]> fitted = new TreeMap<>();
      items.forEach((id, list) -> fitted.put(id, scoring.fit(list, fleet(), 20)));
      return fitted;
    }

    double rms(SortedMap<String, double[]> variances) {
      double sum = 0;
      for (var family : variances.entrySet()) {
        for (int k = 0; k < 2; k++) {
          double error = Math.log(family.getValue()[k]) - truth.get(family.getKey())[k];
          sum += error * error / 2 / variances.size();
        }
      }
      return Math.sqrt(sum);
    }
  }

  /** Over six fleets: root mean square errors of log variances, learned and fixed. */
  private static double[] errors(double groupSd, double familySd) {
    double[] errors = new double[2];
    for (int seed = 1; seed <= 6; seed++) {
      Fixture fixture = new Fixture(groupSd, familySd, seed);
      errors[0] += fixture.rms(fixture.learned()) / 6;
      errors[1] += fixture.rms(fixture.fixed()) / 6;
    }
    return errors;
  }

  @Test
  void familiesThatDoNotDifferShareTheFleetsVariances() {
    double[] errors = errors(0, 0);
    assertTrue(errors[0] < 0.8 * errors[1], Arrays.toString(errors));
  }

  @Test
  void familiesThatDifferMuchKeepTheirOwn() {
    double[] errors = errors(0, 1.2);
    assertTrue(errors[0] < 0.9 * errors[1], Arrays.toString(errors));
  }

  @Test
  void familiesAlikeBorrowFromEachOtherWhereKindsOfFamilyDiffer() {
    double[] errors = errors(1.0, 0.1);
    assertTrue(errors[0] < 0.75 * errors[1], Arrays.toString(errors));
  }

  @Test
  void familiesThatDifferAsBelievedLoseNothing() {
    double[] errors = errors(0, PseudoEngines.logVarianceSd(PSEUDO.family()));
    assertTrue(errors[0] < 1.05 * errors[1], Arrays.toString(errors));
  }

  @Test
  void aFamilyWithoutEnginesTakesWhatFamiliesAlikeShow() {
    Fixture fixture = new Fixture(1.0, 0.05, 7);
    fixture.items.remove("F00");
    double[] unseen = fixture.learned().get("F00");
    // The five others of the group, 104 engines, show it to about 0.15.
    assertEquals(fixture.truth.get("F00")[0], Math.log(unseen[0]), 0.5);
    assertEquals(fixture.truth.get("F00")[1], Math.log(unseen[1]), 0.3);
  }

  @Test
  void withoutAnyEngineThePriorStands() {
    SortedMap<String, String> groups = new TreeMap<>(Map.of("F", "G"));
    double[] variances =
        new ComponentHierarchy(new TreeMap<>(), groups, PSEUDO)
            .fit(PRIOR, PRIOR, ALL_LEARNED)
            .get("F");
    assertEquals(PRIOR[0], variances[0], 1e-9);
    assertEquals(PRIOR[1], variances[1], 1e-9);
  }

  @Test
  void aSharedVarianceIsTheFleetsInEveryFamily() {
    Fixture fixture = new Fixture(0, 1.2, 8);
    double[] fleet = fixture.fleet();
    new ComponentHierarchy(fixture.items, fixture.groups, PSEUDO)
        .fit(PRIOR, fleet, new double[] {0.01, Double.NaN})
        .values()
        // Three times the standard deviation that it is given.
        .forEach(v -> assertEquals(1, v[0] / fleet[0], 0.03));
  }
}

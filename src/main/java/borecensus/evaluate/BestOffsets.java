package borecensus.evaluate;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * The best gauge offsets that the data allow: best linear unbiased prediction (Henderson, 1975,
 * Biometrics 31:423-447) from the test levels of the healthy engines, with the true variances, wear
 * and cylinder positions known and only family levels (fixed) and offsets (random) unknown.
 *
 * @param gaugeIds gauges with tests, whose mean offset is the zero of all offsets
 * @param offsets less their mean
 * @param posteriorSd root mean square standard error of those
 * @param familyErrors error of each family's level at that zero
 */
record BestOffsets(
    List<String> gaugeIds, double[] offsets, double posteriorSd, double[] familyErrors) {

  static BestOffsets of(TrueFleet fleet) {
    return new Equations(fleet).solve();
  }

  /** The mixed model equations, families first. */
  private static final class Equations {
    private final TrueFleet fleet;
    private final List<String> familyIds;
    private final List<String> gaugeIds;
    private final RealMatrix left;
    private final RealVector right;

    Equations(TrueFleet fleet) {
      this.fleet = fleet;
      familyIds = List.copyOf(fleet.families().keySet());
      SortedSet<String> used = new TreeSet<>();
      for (TrueEngine engine : fleet.engines()) {
        engine.history().tests().forEach(test -> used.add(test.gaugeId()));
      }
      gaugeIds = new ArrayList<>(used);
      int n = familyIds.size() + gaugeIds.size();
      left = new Array2DRowRealMatrix(n, n);
      right = new ArrayRealVector(n);
      double gaugeSd = fleet.plan().gaugeSd();
      for (int g = familyIds.size(); g < n; g++) {
        left.setEntry(g, g, 1 / (gaugeSd * gaugeSd));
      }
      fleet.engines().stream().filter(engine -> engine.fault().isEmpty()).forEach(this::add);
    }

    private void add(TrueEngine engine) {
      ReadingLaw law = ReadingLaw.ofTruth(engine, fleet);
      RealMatrix precision = SolvedLaw.inverse(new Array2DRowRealMatrix(levelCovariance(law)));
      int family = familyIds.indexOf(engine.history().familyId());
      for (int t = 0; t < law.tests(); t++) {
        for (int u = 0; u < law.tests(); u++) {
          double w = precision.getEntry(t, u);
          double value = w * (level(law, u) + offset(engine, u));
          for (int row : new int[] {family, gauge(engine, t)}) {
            right.addToEntry(row, value);
            left.addToEntry(row, family, w);
            left.addToEntry(row, gauge(engine, u), w);
          }
        }
      }
    }

    private int gauge(TrueEngine engine, int test) {
      String id = engine.history().tests().get(test).gaugeId();
      return familyIds.size() + gaugeIds.indexOf(id);
    }

    private double offset(TrueEngine engine, int test) {
      return fleet.gaugeOffsets().get(engine.history().tests().get(test).gaugeId());
    }

    private static double level(ReadingLaw law, int test) {
      double sum = 0;
      for (double residual : law.residual()[test]) {
        sum += residual;
      }
      return sum / law.cylinders();
    }

    private static double[][] levelCovariance(ReadingLaw law) {
      int tests = law.tests();
      double[][] covariance = new double[tests][tests];
      for (int t = 0; t < tests; t++) {
        for (int u = 0; u < tests; u++) {
          covariance[t][u] = law.levelCovariance()[t][u] + law.cylinderVariance() / law.cylinders();
        }
        covariance[t][t] += law.readingVariance()[t][0] / law.cylinders();
      }
      return covariance;
    }

    BestOffsets solve() {
      CholeskyDecomposition factor =
          new CholeskyDecomposition(left, SolvedLaw.ASYMMETRY, SolvedLaw.SMALLEST);
      double[] solution = factor.getSolver().solve(right).toArray();
      int families = familyIds.size();
      int gauges = gaugeIds.size();
      double mean = 0;
      double trueMean = 0;
      for (int g = 0; g < gauges; g++) {
        mean += solution[families + g] / gauges;
        trueMean += fleet.gaugeOffsets().get(gaugeIds.get(g)) / gauges;
      }
      double[] offsets = new double[gauges];
      for (int g = 0; g < gauges; g++) {
        offsets[g] = solution[families + g] - mean;
      }
      double[] familyErrors = new double[families];
      for (int f = 0; f < families; f++) {
        familyErrors[f] = solution[f] + mean - trueMean;
      }
      RealMatrix errors =
          factor
              .getSolver()
              .getInverse()
              .getSubMatrix(families, families + gauges - 1, families, families + gauges - 1);
      return new BestOffsets(gaugeIds, offsets, centredSd(errors), familyErrors);
    }

    private static double centredSd(RealMatrix errors) {
      int n = errors.getRowDimension();
      double all = 0;
      for (double[] row : errors.getData()) {
        for (double value : row) {
          all += value;
        }
      }
      return Math.sqrt(Math.max(0, errors.getTrace() / n - all / n / n));
    }
  }
}

package borecensus.norms;

import borecensus.statistics.RobustScale;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * First variance components of one family from median absolute deviations (Hampel, 1974, J. Am.
 * Stat. Assoc. 69:383-393) in place of the mean squares of an analysis of variance, so that faulty
 * engines do not widen the norm that is to find them. Each is drawn to a believed value as if that
 * came from some more engines.
 */
final class RobustComponents {
  /** No first variance is taken for less than this share of the believed one. */
  private static final double FLOOR = 0.1;

  private final List<EngineResiduals> engines;
  private final double readings;
  private final double tests;
  private final double rounding;

  private RobustComponents(List<EngineResiduals> engines, int cylinders) {
    this.engines = engines;
    this.readings = cylinders;
    this.tests = engines.stream().mapToInt(EngineResiduals::tests).average().orElse(1);
    this.rounding =
        engines.stream()
            .flatMapToDouble(e -> Arrays.stream(e.readings().roundingVariance()))
            .average()
            .orElse(0);
  }

  static VarianceComponents of(
      List<EngineResiduals> engines, int cylinders, VarianceComponents believed, double pseudo) {
    RobustComponents raw = new RobustComponents(engines, cylinders);
    double n = engines.size();
    double reading = drawn(raw.reading(), believed.reading(), n, pseudo);
    double cylinder = drawn(raw.cylinder(reading), believed.cylinder(), n, pseudo);
    double test = drawn(raw.test(reading), believed.test(), n, pseudo);
    double engine = drawn(raw.engine(reading, cylinder, test), believed.engine(), n, pseudo);
    return new VarianceComponents(engine, believed.slope(), cylinder, test, reading);
  }

  /** Geometric mean, weighted by engines; the believed value alone where nothing was seen. */
  private static double drawn(double seen, double believed, double engines, double pseudo) {
    if (Double.isNaN(seen)) {
      return believed;
    }
    double usable = Math.max(seen, FLOOR * believed);
    double logs = engines * Math.log(usable) + pseudo * Math.log(believed);
    return Math.exp(logs / (engines + pseudo));
  }

  private double reading() {
    List<Double> changes = new ArrayList<>();
    for (EngineResiduals engine : engines) {
      for (int t = 1; t < engine.tests(); t++) {
        double[] change = new double[engine.residual()[t].length];
        for (int c = 0; c < change.length; c++) {
          change[c] = engine.residual()[t][c] - engine.residual()[t - 1][c];
        }
        addContrasts(changes, change);
      }
    }
    return square(scale(changes)) / 2 * contrastFactor() - rounding;
  }

  private double cylinder(double reading) {
    List<Double> lasting = new ArrayList<>();
    for (EngineResiduals engine : engines) {
      double[] mean = new double[engine.residual()[0].length];
      for (double[] test : engine.residual()) {
        for (int c = 0; c < mean.length; c++) {
          mean[c] += test[c] / engine.tests();
        }
      }
      addContrasts(lasting, mean);
    }
    return square(scale(lasting)) * contrastFactor() - (reading + rounding) / tests;
  }

  private double test(double reading) {
    List<Double> changes = new ArrayList<>();
    for (EngineResiduals engine : engines) {
      for (int t = 1; t < engine.tests(); t++) {
        changes.add(middle(engine, t) - middle(engine, t - 1));
      }
    }
    return square(scale(changes)) / 2 - (reading + rounding) / readings;
  }

  private double engine(double reading, double cylinder, double test) {
    List<Double> levels = new ArrayList<>();
    for (EngineResiduals engine : engines) {
      double sum = 0;
      for (int t = 0; t < engine.tests(); t++) {
        sum += middle(engine, t);
      }
      levels.add(sum / engine.tests());
    }
    double shared = test / tests + (cylinder + (reading + rounding) / tests) / readings;
    return square(scale(levels)) - shared;
  }

  private static double middle(EngineResiduals engine, int test) {
    return EngineLevels.Summary.MEDIAN.of(EngineLevels.read(engine.residual()[test]));
  }

  private static void addContrasts(List<Double> into, double[] values) {
    double[] read = EngineLevels.read(values);
    double middle = EngineLevels.Summary.MEDIAN.of(read);
    for (double value : read) {
      into.add(value - middle);
    }
  }

  /** What subtracting the engine's own middle takes from the variance; NaN for one cylinder. */
  private double contrastFactor() {
    return readings > 1 ? readings / (readings - 1) : Double.NaN;
  }

  private static double scale(List<Double> values) {
    return RobustScale.mad(values.stream().mapToDouble(v -> v).toArray());
  }

  private static double square(double x) {
    return x * x;
  }
}

package borecensus.norms;

import borecensus.statistics.NormalRange;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * Norms as a table: level centiles of a healthy engine over a grid of usages, and its spread.
 *
 * <p>Level centiles are those of one test's mean over the cylinders, with an exact gauge: engine,
 * slope, cylinder, test and reading variance, and the error of the mean itself. The spread is that
 * of n normal readings (Tippett, 1925, Biometrika 17:364-387) with the cylinder and reading
 * variance and the family's position effects left out; a range r of logs is a spread of 100 (1 -
 * exp(-r)) per cent.
 */
public final class FamilyNormTable {
  private static final int MOST_POINTS = 9;

  /** Steps between grid points, in model units, of which the first that is wide enough is used. */
  private static final double[] STEPS = {0.1, 0.2, 0.25, 0.5, 1, 2, 2.5, 5, 10, 20, 50};

  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private FamilyNormTable() {}

  /**
   * The rows of every family of known level, by family and usage; one row, at the usage taken for
   * engines of unknown usage, where no engine was tested.
   */
  public static List<FamilyNormRow> of(FleetNorms norms) {
    List<FamilyNormRow> rows = new ArrayList<>();
    for (FamilyNorm norm : norms.families().values()) {
      if (norm.judgeable()) {
        rows.addAll(of(norm));
      }
    }
    return rows;
  }

  /** The rows of one family of known level, by usage. */
  public static List<FamilyNormRow> of(FamilyNorm norm) {
    Spread spread = Spread.of(norm);
    return grid(norm.range()).stream().map(usage -> row(norm, usage, spread)).toList();
  }

  /** The norm at one usage, in model units. */
  public static FamilyNormRow at(FamilyNorm norm, double usage) {
    return row(norm, usage, Spread.of(norm));
  }

  /**
   * The level that a share of healthy engines stays below at a usage.
   *
   * @param usage in model units
   * @param share strictly between 0 and 1
   */
  public static double levelKpa(FamilyNorm norm, double usage, double share) {
    return centile(norm.curve().at(usage), levelSd(norm, usage), share);
  }

  /** Round usages within the range seen; its middle when there is none. */
  static List<Double> grid(ObservedRange range) {
    if (range.engines() == 0) {
      return List.of(range.usualUsage());
    }
    double step = STEPS[STEPS.length - 1];
    for (int i = STEPS.length - 1; i >= 0; i--) {
      if ((range.lastUsage() - range.firstUsage()) / STEPS[i] <= MOST_POINTS - 1) {
        step = STEPS[i];
      }
    }
    List<Double> grid = new ArrayList<>();
    for (double k = Math.ceil(range.firstUsage() / step); k * step <= range.lastUsage(); k++) {
      grid.add(k * step);
    }
    return grid.isEmpty() ? List.of((range.firstUsage() + range.lastUsage()) / 2) : grid;
  }

  private static FamilyNormRow row(FamilyNorm norm, double usage, Spread spread) {
    double mean = norm.curve().at(usage);
    double sd = levelSd(norm, usage);
    return new FamilyNormRow(
        norm.family().familyId(),
        norm.axis(),
        norm.axis().fromUnits(usage),
        norm.range().engines(),
        norm.range().tests(),
        Math.exp(mean),
        centile(mean, sd, 0.01),
        centile(mean, sd, 0.05),
        centile(mean, sd, 0.25),
        centile(mean, sd, 0.75),
        centile(mean, sd, 0.95),
        centile(mean, sd, 0.99),
        spread.medianPct(),
        spread.p95Pct(),
        spread.p99Pct());
  }

  private static double levelSd(FamilyNorm norm, double usage) {
    VarianceComponents v = norm.components();
    double error = norm.meanStandardError(usage);
    return Math.sqrt(
        v.engineAt(usage)
            + v.test()
            + (v.cylinder() + v.reading()) / norm.family().cylinders()
            + error * error);
  }

  private static double centile(double mean, double sd, double p) {
    return Math.exp(mean + sd * NORMAL.inverseCumulativeProbability(p));
  }

  /** A family's spread, which is the same at every usage; NaN with a single cylinder. */
  private record Spread(double medianPct, double p95Pct, double p99Pct) {
    static Spread of(FamilyNorm norm) {
      return new Spread(pct(norm, 0.5), pct(norm, 0.95), pct(norm, 0.99));
    }

    private static double pct(FamilyNorm norm, double p) {
      int cylinders = norm.family().cylinders();
      double sigma = Math.sqrt(norm.components().cylinder() + norm.components().reading());
      return cylinders < 2
          ? Double.NaN
          : -100 * Math.expm1(-sigma * NormalRange.quantile(p, cylinders));
    }
  }
}

package borecensus.norms;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The equations of {@link CrossedEffects} for many gauges, of which hardly any two meet in one
 * engine: only what is not zero is held, and they are solved by conjugate gradients with the
 * diagonal as preconditioner (Hestenes and Stiefel, 1952, J. Res. Natl. Bur. Stand. 49:409-436).
 * Work and memory grow with the tests and not with the square of the gauges.
 *
 * <p>Error variances of single gauges are those of {@link NeighbourErrors}; products of the inverse
 * with a vector are solved for and have no such error.
 */
final class SparseCrossed {
  private static final double TOLERANCE = 1e-10;
  private static final int MOST_ITERATIONS = 1_000;

  private final double[] familyInformation;
  private final double[] familyScore;
  private final double[] gaugeScore;
  private final SparseRows gauges;
  private final SparseRows coupling;
  private final SparseRows familiesOf;

  private SparseCrossed(int families, int gauges, SparseSums sums) {
    this.familyInformation = sums.information;
    this.familyScore = sums.familyScore;
    this.gaugeScore = sums.gaugeScore;
    this.gauges = sums.gaugeInformation.packed(gauges, gauges);
    this.coupling = sums.coupling.packed(families, gauges);
    this.familiesOf = coupling.transposed(gauges);
  }

  /** Sums over engines, each of whose values has one gauge. */
  static SparseCrossed of(List<CrossedBlock> engines, int families, int gauges) {
    SparseSums sums = new SparseSums(families, gauges);
    engines.forEach(sums::add);
    return new SparseCrossed(families, gauges, sums);
  }

  /** Predictions for gauges of this variance. */
  GaugeSolution solve(double gaugeVariance) {
    Equations equations = new Equations(gaugeVariance);
    double[] score = gaugeScore.clone();
    for (int f = 0; f < familyInformation.length; f++) {
      if (familyInformation[f] > 0) {
        coupling.addRow(f, -familyScore[f] / familyInformation[f], score);
      }
    }
    double[] offsets = equations.times(score);
    double[] means = new double[familyInformation.length];
    for (int f = 0; f < means.length; f++) {
      means[f] =
          familyInformation[f] > 0
              ? (familyScore[f] - coupling.dot(f, offsets)) / familyInformation[f]
              : Double.NaN;
    }
    return new GaugeSolution(
        means, offsets, equations, familyInformation, f -> coupling.row(f, gaugeScore.length));
  }

  /** The equations with one variance, families eliminated; its inverse is the error covariance. */
  private final class Equations implements EffectErrors {
    private final double prior;
    private final double[] diagonal;
    private final double[] variances;

    Equations(double gaugeVariance) {
      prior = 1 / gaugeVariance;
      diagonal = gauges.diagonal();
      for (int g = 0; g < diagonal.length; g++) {
        diagonal[g] += prior - familiesOf.products(g, g, familyInformation);
      }
      NeighbourErrors errors = new NeighbourErrors(gauges, familiesOf, familyInformation, prior);
      variances =
          IntStream.range(0, diagonal.length).parallel().mapToDouble(errors::variance).toArray();
    }

    @Override
    public double variance(int effect) {
      return variances[effect];
    }

    /** Conjugate gradients from zero. */
    @Override
    public double[] times(double[] weights) {
      int n = weights.length;
      double[] x = new double[n];
      double[] residual = weights.clone();
      double[] direction = preconditioned(residual);
      double rho = dot(residual, direction);
      double target = TOLERANCE * TOLERANCE * rho;
      for (int i = 0; i < MOST_ITERATIONS && rho > target; i++) {
        double[] image = apply(direction);
        double step = rho / dot(direction, image);
        for (int g = 0; g < n; g++) {
          x[g] += step * direction[g];
          residual[g] -= step * image[g];
        }
        double[] next = preconditioned(residual);
        double newRho = dot(residual, next);
        for (int g = 0; g < n; g++) {
          direction[g] = next[g] + newRho / rho * direction[g];
        }
        rho = newRho;
      }
      return x;
    }

    private double[] preconditioned(double[] residual) {
      double[] z = new double[residual.length];
      Arrays.setAll(z, g -> residual[g] / diagonal[g]);
      return z;
    }

    private double[] apply(double[] x) {
      double[] y = gauges.times(x);
      for (int g = 0; g < y.length; g++) {
        y[g] += prior * x[g];
      }
      for (int f = 0; f < familyInformation.length; f++) {
        if (familyInformation[f] > 0) {
          coupling.addRow(f, -coupling.dot(f, x) / familyInformation[f], y);
        }
      }
      return y;
    }
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  /** The sums while they are made. */
  private static final class SparseSums {
    private final double[] information;
    private final double[] familyScore;
    private final double[] gaugeScore;
    private final SparseCells coupling = new SparseCells();
    private final SparseCells gaugeInformation = new SparseCells();

    SparseSums(int families, int gauges) {
      information = new double[families];
      familyScore = new double[families];
      gaugeScore = new double[gauges];
    }

    void add(CrossedBlock engine) {
      int f = engine.family();
      for (int t = 0; t < engine.values().length; t++) {
        int g = engine.effects()[t][0];
        double atGauge = 0;
        for (int u = 0; u < engine.values().length; u++) {
          double w = engine.precision()[t][u];
          information[f] += w;
          familyScore[f] += w * engine.values()[u];
          gaugeScore[g] += w * engine.values()[u];
          atGauge += w;
          gaugeInformation.add(g, engine.effects()[u][0], w);
        }
        coupling.add(f, g, atGauge);
      }
    }
  }
}

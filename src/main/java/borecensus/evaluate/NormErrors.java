package borecensus.evaluate;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.VarianceComponents;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * How far learned norms are from the truth. Levels are compared at the same zero of gauge offsets:
 * the mean over the gauges with tests.
 *
 * @param medianMaxPct largest error of a family median over the middle 90 % of its usages, families
 *     of more than {@value #LARGE} engines
 * @param medianMaxAllPct the same over all families
 * @param medianRmsPct root mean square of those errors, families of more than {@value #LARGE}
 * @param levelRmsAttainablePct the error of the best family levels when wear is known, those
 *     families
 * @param gaugeRmsPct root mean square error of gauge offsets
 * @param gaugeRmsAttainablePct the same of the best offsets on the same tests
 * @param sdErrorsPct mean error of each standard deviation (engine, slope, cylinder, test,
 *     reading), per cent of the true one, families of more than {@value #LARGE}
 */
record NormErrors(
    double medianMaxPct,
    double medianMaxAllPct,
    double medianRmsPct,
    double levelRmsAttainablePct,
    double gaugeRmsPct,
    double gaugeRmsAttainablePct,
    double gaugePosteriorSdPct,
    double[] sdErrorsPct) {
  static final int LARGE = 100;
  private static final int GRID = 19;
  private static final int COMPONENTS = 5;

  static NormErrors of(TrueFleet fleet, FleetNorms norms) {
    return new Comparison(fleet, norms).errors();
  }

  private static final class Comparison {
    private final TrueFleet fleet;
    private final FleetNorms norms;
    private final List<TrueFamily> families;
    private final BestOffsets best;
    private final double zero;

    Comparison(TrueFleet fleet, FleetNorms norms) {
      this.fleet = fleet;
      this.norms = norms;
      this.families = List.copyOf(fleet.families().values());
      this.best = BestOffsets.of(fleet);
      this.zero =
          best.gaugeIds().stream().mapToDouble(fleet.gaugeOffsets()::get).average().orElse(0);
    }

    NormErrors errors() {
      double[][] medians = families.stream().map(this::medianErrors).toArray(double[][]::new);
      int[] large =
          IntStream.range(0, medians.length)
              .filter(f -> engines(families.get(f)) > LARGE)
              .toArray();
      int[] all = IntStream.range(0, medians.length).toArray();
      double[][] levels =
          Arrays.stream(best.familyErrors())
              .mapToObj(error -> new double[] {error})
              .toArray(double[][]::new);
      return new NormErrors(
          100 * largest(medians, large),
          100 * largest(medians, all),
          100 * rms(medians, large),
          100 * rms(levels, large),
          100 * gaugeRms(g -> norms.gauge(best.gaugeIds().get(g)).offsetLog()),
          100 * gaugeRms(g -> best.offsets()[g]),
          100 * best.posteriorSd(),
          sdErrorsPct(large));
    }

    /** NaN without families. */
    private static double largest(double[][] errors, int[] of) {
      return Arrays.stream(of)
          .mapToDouble(f -> Arrays.stream(errors[f]).map(Math::abs).max().orElse(0))
          .max()
          .orElse(Double.NaN);
    }

    /** Every family counting alike; NaN without families. */
    private static double rms(double[][] errors, int[] of) {
      return Math.sqrt(
          Arrays.stream(of)
              .mapToDouble(f -> Arrays.stream(errors[f]).map(e -> e * e).average().orElse(0))
              .average()
              .orElse(Double.NaN));
    }

    private long engines(TrueFamily family) {
      return fleet.engines().stream().filter(e -> fleet.familyOf(e) == family).count();
    }

    private double[] usages(TrueFamily family) {
      return fleet.engines().stream()
          .filter(e -> fleet.familyOf(e) == family)
          .flatMapToDouble(e -> Arrays.stream(e.usage()))
          .sorted()
          .toArray();
    }

    private double[] medianErrors(TrueFamily family) {
      FamilyNorm norm = norm(family);
      double[] usages = usages(family);
      double from = usages[(int) (0.05 * (usages.length - 1))];
      double to = usages[(int) (0.95 * (usages.length - 1))];
      double[] errors = new double[GRID];
      for (int i = 0; i < GRID; i++) {
        double x = from + (to - from) * i / (GRID - 1);
        errors[i] = Math.expm1(norm.curve().at(x) - family.level().at(x) - zero);
      }
      return errors;
    }

    private double[] sdErrorsPct(int[] of) {
      double[] means = new double[COMPONENTS];
      for (int f : of) {
        double[] ratios = sdRatios(families.get(f));
        for (int i = 0; i < means.length; i++) {
          means[i] += 100 * (ratios[i] - 1) / of.length;
        }
      }
      if (of.length == 0) {
        Arrays.fill(means, Double.NaN);
      }
      return means;
    }

    /** Learned over true; weather that no barometer saw is part of what tests differ by. */
    private double[] sdRatios(TrueFamily family) {
      VarianceComponents learned = norm(family).components();
      VarianceComponents truth = family.components();
      double weather =
          fleet.engines().stream()
              .filter(e -> fleet.familyOf(e) == family)
              .flatMapToDouble(e -> Arrays.stream(e.weatherVariance()))
              .average()
              .orElse(0);
      return new double[] {
        Math.sqrt(learned.engine() / truth.engine()),
        Math.sqrt(learned.slope() / truth.slope()),
        Math.sqrt(learned.cylinder() / truth.cylinder()),
        Math.sqrt(learned.test() / (truth.test() + weather)),
        Math.sqrt(learned.reading() / truth.reading())
      };
    }

    private FamilyNorm norm(TrueFamily family) {
      return norms.family(family.family().familyId()).orElseThrow();
    }

    private double gaugeRms(IntToDoubleFunction offset) {
      double squares = 0;
      int n = best.gaugeIds().size();
      for (int g = 0; g < n; g++) {
        double truth = fleet.gaugeOffsets().get(best.gaugeIds().get(g)) - zero;
        squares += Math.pow(offset.applyAsDouble(g) - truth, 2);
      }
      return Math.sqrt(squares / n);
    }
  }
}

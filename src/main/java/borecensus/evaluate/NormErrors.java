package borecensus.evaluate;

import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.VarianceComponents;
import java.util.Arrays;
import java.util.function.IntToDoubleFunction;

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

  static NormErrors of(TrueFleet fleet, FleetNorms norms) {
    return new Comparison(fleet, norms).errors();
  }

  private static final class Comparison {
    private final TrueFleet fleet;
    private final FleetNorms norms;
    private final BestOffsets best;
    private final double zero;

    Comparison(TrueFleet fleet, FleetNorms norms) {
      this.fleet = fleet;
      this.norms = norms;
      this.best = BestOffsets.of(fleet);
      this.zero =
          best.gaugeIds().stream().mapToDouble(fleet.gaugeOffsets()::get).average().orElse(0);
    }

    NormErrors errors() {
      double max = 0;
      double maxAll = 0;
      double squares = 0;
      double attainable = 0;
      double[] components = new double[5];
      int large = 0;
      int families = 0;
      for (TrueFamily family : fleet.families().values()) {
        double[] usages = usages(family);
        double[] errors = medianErrors(family, usages);
        double worst = Arrays.stream(errors).map(Math::abs).max().orElse(0);
        maxAll = Math.max(maxAll, worst);
        if (engines(family) > LARGE) {
          max = Math.max(max, worst);
          squares += Arrays.stream(errors).map(e -> e * e).average().orElse(0);
          attainable += best.familyErrors()[families] * best.familyErrors()[families];
          addComponents(components, family);
          large++;
        }
        families++;
      }
      double count = large == 0 ? Double.NaN : large;
      return new NormErrors(
          large == 0 ? Double.NaN : 100 * max,
          100 * maxAll,
          100 * Math.sqrt(squares / count),
          100 * Math.sqrt(attainable / count),
          100 * rms(g -> norms.gauge(best.gaugeIds().get(g)).offsetLog()),
          100 * rms(g -> best.offsets()[g]),
          100 * best.posteriorSd(),
          Arrays.stream(components).map(c -> 100 * c / count).toArray());
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

    private double[] medianErrors(TrueFamily family, double[] usages) {
      FamilyNorm norm = norms.family(family.family().familyId()).orElseThrow();
      double from = usages[(int) (0.05 * (usages.length - 1))];
      double to = usages[(int) (0.95 * (usages.length - 1))];
      double[] errors = new double[GRID];
      for (int i = 0; i < GRID; i++) {
        double x = from + (to - from) * i / (GRID - 1);
        errors[i] = Math.expm1(norm.curve().at(x) - family.level().at(x) - zero);
      }
      return errors;
    }

    private void addComponents(double[] sums, TrueFamily family) {
      VarianceComponents learned =
          norms.family(family.family().familyId()).orElseThrow().components();
      VarianceComponents truth = family.components();
      double weather =
          fleet.engines().stream()
              .filter(e -> fleet.familyOf(e) == family)
              .flatMapToDouble(e -> Arrays.stream(e.weatherVariance()))
              .average()
              .orElse(0);
      sums[0] += Math.sqrt(learned.engine() / truth.engine()) - 1;
      sums[1] += Math.sqrt(learned.slope() / truth.slope()) - 1;
      sums[2] += Math.sqrt(learned.cylinder() / truth.cylinder()) - 1;
      sums[3] += Math.sqrt(learned.test() / (truth.test() + weather)) - 1;
      sums[4] += Math.sqrt(learned.reading() / truth.reading()) - 1;
    }

    private double rms(IntToDoubleFunction offset) {
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

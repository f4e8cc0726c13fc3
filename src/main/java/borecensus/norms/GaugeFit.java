package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Gauge offsets of the whole fleet at once, crossed with families and engines, their variance, and
 * what their errors mean for each family. Identifying constraint: the mean offset over the gauges
 * with tests is zero.
 */
final class GaugeFit {
  private static final int VARIANCE_STEPS = 4;

  /** Work grows with the cube of the gauges; beyond this many they are solved by iteration. */
  private static final int MOST_SOLVED_AT_ONCE = 400;

  /** A relative change of the variance that makes no difference to any offset. */
  private static final double SETTLED = 0.02;

  private final List<String> familyIds;
  private final List<String> gaugeIds;
  private final Map<String, Integer> familyNumbers = new HashMap<>();
  private final Map<String, Integer> gaugeNumbers = new HashMap<>();
  private final double[] presentOffsets;
  private final List<CrossedBlock> blocks = new ArrayList<>();
  private final int[] tests;
  private SparseCrossed sums;

  GaugeFit(FleetNorms norms) {
    familyIds = List.copyOf(norms.families().keySet());
    gaugeIds = List.copyOf(norms.gauges().keySet());
    familyIds.forEach(f -> familyNumbers.put(f, familyNumbers.size()));
    gaugeIds.forEach(g -> gaugeNumbers.put(g, gaugeNumbers.size()));
    tests = new int[gaugeIds.size()];
    presentOffsets = norms.gauges().values().stream().mapToDouble(GaugeOffset::offsetLog).toArray();
  }

  void addEngine(EngineLevels engine) {
    int n = engine.deviation().length;
    int[] gauges = new int[n];
    double[] values = new double[n];
    double[][] precision = Zeros.square(n);
    for (int t = 0; t < n; t++) {
      gauges[t] = gaugeNumbers.get(engine.readings().gaugeIds()[t]);
      tests[gauges[t]]++;
      values[t] = engine.deviation()[t] + presentOffsets[gauges[t]];
      for (int u = 0; u < n; u++) {
        precision[t][u] = engine.weight() * engine.precision()[t][u];
      }
    }
    if (engine.weight() > 0) {
      int family = familyNumbers.get(engine.readings().familyId());
      blocks.add(CrossedBlock.ofGauges(family, gauges, values, precision));
    }
  }

  /** The norms with new gauge offsets, and family means shifted to go with them. */
  FleetNorms fit(FleetNorms norms, FuelPriors common) {
    double variance = norms.gaugeVariance();
    GaugeSolution effects = solve(variance);
    for (int i = 0; i < VARIANCE_STEPS; i++) {
      double better = variance(effects, common);
      boolean settled = Math.abs(better / variance - 1) < SETTLED;
      variance = better;
      if (settled) {
        break;
      }
      effects = solve(variance);
    }
    GaugeErrors errors = new GaugeErrors(effects.errors(), plainMix());
    return norms
        .withFamilies(families(norms, effects, errors))
        .withGauges(gauges(norms, effects, errors, variance), variance);
  }

  private SortedMap<String, GaugeOffset> gauges(
      FleetNorms norms, GaugeSolution effects, GaugeErrors errors, double variance) {
    double centre = centre(effects);
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>();
    for (int g = 0; g < tests.length; g++) {
      String id = gaugeIds.get(g);
      double resolutionKpa = norms.gauge(id).resolutionKpa();
      gauges.put(
          id,
          tests[g] == 0
              ? new GaugeOffset(id, 0, Math.sqrt(variance), 0, resolutionKpa)
              : norms
                  .gauge(id)
                  .moved(
                      effects.gaugeOffsets()[g] - centre, Math.sqrt(errors.ofGauge(g)), tests[g]));
    }
    return gauges;
  }

  /** The mix of each family is solved for, on all cores. */
  private SortedMap<String, FamilyNorm> families(
      FleetNorms norms, GaugeSolution effects, GaugeErrors errors) {
    double centre = centre(effects);
    List<FamilyNorm> shifted =
        familyIds.parallelStream()
            .map(id -> shifted(norms.families().get(id), effects, centre, errors))
            .toList();
    SortedMap<String, FamilyNorm> families = new TreeMap<>();
    for (int f = 0; f < familyIds.size(); f++) {
      families.put(familyIds.get(f), shifted.get(f));
    }
    return families;
  }

  private GaugeSolution solve(double variance) {
    return gaugeIds.size() <= MOST_SOLVED_AT_ONCE
        ? GaugeSolution.of(
            CrossedEffects.solve(blocks, familyIds.size(), gaugeIds.size(), variance))
        : sparse().solve(variance);
  }

  private SparseCrossed sparse() {
    if (sums == null) {
      sums = SparseCrossed.of(blocks, familyIds.size(), gaugeIds.size());
    }
    return sums;
  }

  /** One expectation and maximisation step, the prior standing for some more gauges. */
  private double variance(GaugeSolution effects, FuelPriors common) {
    double pseudo = common.pseudoEngines().fleet();
    double sum = pseudo * common.gaugeVariance();
    double count = pseudo;
    for (int g = 0; g < tests.length; g++) {
      if (tests[g] > 0) {
        double offset = effects.gaugeOffsets()[g];
        sum += offset * offset + effects.errors().variance(g);
        count++;
      }
    }
    return sum / count;
  }

  /** Equal weights for all gauges with tests. */
  private double[] plainMix() {
    double used = Math.max(1, Arrays.stream(tests).filter(n -> n > 0).count());
    return Arrays.stream(tests).mapToDouble(n -> n > 0 ? 1 / used : 0).toArray();
  }

  private double centre(GaugeSolution effects) {
    double[] mix = plainMix();
    double sum = 0;
    for (int g = 0; g < mix.length; g++) {
      sum += mix[g] * effects.gaugeOffsets()[g];
    }
    return sum;
  }

  private FamilyNorm shifted(
      FamilyNorm norm, GaugeSolution effects, double centre, GaugeErrors fleetErrors) {
    int f = familyNumbers.get(norm.family().familyId());
    double information = effects.familyInformation()[f];
    if (!(information > 0)) {
      return norm.withCurve(norm.curve().raisedBy(centre));
    }
    double[] coupling = effects.coupling().of(f);
    double[] mix = Arrays.stream(coupling).map(q -> q / information).toArray();
    GaugeErrors errors = new GaugeErrors(effects.errors(), mix);
    SortedMap<String, Double> byGauge = new TreeMap<>();
    for (int g = 0; g < tests.length; g++) {
      if (coupling[g] > 0) {
        byGauge.put(gaugeIds.get(g), errors.ofGauge(g));
      }
    }
    return norm.withCurve(norm.curve().raisedBy(effects.familyMeans()[f] + centre))
        .withGaugeErrors(fleetErrors.ofMix(errors), byGauge);
  }
}

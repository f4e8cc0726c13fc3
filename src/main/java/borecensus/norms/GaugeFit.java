package borecensus.norms;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Gauge offsets of the whole fleet at once, crossed with families and engines, their variance, and
 * what their errors mean for each family. Identifying constraint: the mean offset over the gauges
 * with tests is zero.
 */
final class GaugeFit {
  private static final int VARIANCE_STEPS = 4;

  private final List<String> familyIds;
  private final List<String> gaugeIds;
  private final SortedMap<String, Integer> familyNumbers = new TreeMap<>();
  private final SortedMap<String, Integer> gaugeNumbers = new TreeMap<>();
  private final List<CrossedBlock> blocks = new ArrayList<>();
  private final int[] tests;

  GaugeFit(FleetNorms norms) {
    familyIds = List.copyOf(norms.families().keySet());
    gaugeIds = List.copyOf(norms.gauges().keySet());
    familyIds.forEach(f -> familyNumbers.put(f, familyNumbers.size()));
    gaugeIds.forEach(g -> gaugeNumbers.put(g, gaugeNumbers.size()));
    tests = new int[gaugeIds.size()];
  }

  void addEngine(EngineLevels engine, FleetNorms norms) {
    int n = engine.deviation().length;
    int[] gauges = new int[n];
    double[] values = new double[n];
    double[][] precision = new double[n][n];
    for (int t = 0; t < n; t++) {
      String gaugeId = engine.readings().gaugeIds()[t];
      gauges[t] = gaugeNumbers.get(gaugeId);
      tests[gauges[t]]++;
      values[t] = engine.deviation()[t] + norms.gauge(gaugeId).offsetLog();
      for (int u = 0; u < n; u++) {
        precision[t][u] = engine.weight() * engine.precision()[t][u];
      }
    }
    if (engine.weight() > 0) {
      int family = familyNumbers.get(engine.readings().familyId());
      blocks.add(new CrossedBlock(family, gauges, values, precision));
    }
  }

  /** The norms with new gauge offsets, and family means shifted to go with them. */
  FleetNorms fit(FleetNorms norms, FuelPriors common) {
    double variance = norms.gaugeVariance();
    CrossedEffects effects = solve(variance);
    for (int i = 0; i < VARIANCE_STEPS; i++) {
      variance = variance(effects, common);
      effects = solve(variance);
    }
    CrossedEffects last = effects;
    double centre = centre(effects);
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>();
    for (int g = 0; g < tests.length; g++) {
      double error = tests[g] == 0 ? variance : effects.gaugeErrors()[g][g];
      gauges.put(
          gaugeIds.get(g),
          new GaugeOffset(
              gaugeIds.get(g),
              tests[g] == 0 ? 0 : effects.gaugeOffsets()[g] - centre,
              Math.sqrt(error),
              tests[g],
              norms.gauge(gaugeIds.get(g)).resolutionKpa()));
    }
    SortedMap<String, FamilyNorm> families = new TreeMap<>(norms.families());
    families.replaceAll((id, norm) -> shifted(norm, last, centre));
    return norms.withFamilies(families).withGauges(gauges, variance);
  }

  private CrossedEffects solve(double variance) {
    return CrossedEffects.solve(blocks, familyIds.size(), gaugeIds.size(), variance);
  }

  /** One expectation and maximisation step, the prior standing for some more gauges. */
  private double variance(CrossedEffects effects, FuelPriors common) {
    double pseudo = common.pseudoEngines().fleet();
    double sum = pseudo * common.gaugeVariance();
    double count = pseudo;
    for (int g = 0; g < tests.length; g++) {
      if (tests[g] > 0) {
        double offset = effects.gaugeOffsets()[g];
        sum += offset * offset + effects.gaugeErrors()[g][g];
        count++;
      }
    }
    return sum / count;
  }

  private double centre(CrossedEffects effects) {
    double sum = 0;
    int count = 0;
    for (int g = 0; g < tests.length; g++) {
      if (tests[g] > 0) {
        sum += effects.gaugeOffsets()[g];
        count++;
      }
    }
    return count == 0 ? 0 : sum / count;
  }

  private FamilyNorm shifted(FamilyNorm norm, CrossedEffects effects, double centre) {
    int f = familyNumbers.get(norm.family().familyId());
    if (!(effects.familyInformation()[f] > 0)) {
      return norm.withCurve(norm.curve().raisedBy(centre));
    }
    GaugeErrors errors = GaugeErrors.of(effects, f);
    SortedMap<String, Double> byGauge = new TreeMap<>();
    for (int g = 0; g < tests.length; g++) {
      if (effects.coupling()[f][g] > 0) {
        byGauge.put(gaugeIds.get(g), errors.againstMix(g));
      }
    }
    return norm.withCurve(norm.curve().raisedBy(effects.familyMeans()[f] + centre))
        .withGaugeErrors(errors.ofMix(), byGauge);
  }
}

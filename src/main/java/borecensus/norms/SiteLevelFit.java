package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Fuel;
import borecensus.domain.Limits;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Levels of the sites by the crossed model (see {@link CrossedEffects}), with the gauge offsets put
 * back into the readings first: a gauge that never leaves its site has taken on whatever is wrong
 * there. Sites are given a variance so wide that they are not drawn together. Engines far out count
 * less (Huber, 1964, Ann. Math. Stat. 35:73-101), since some are faulty.
 */
final class SiteLevelFit {
  private static final double WIDE_VARIANCE = 1;
  private static final double HUBER_LIMIT = 2;
  private static final int REWEIGHTINGS = 4;

  /** How many gauges the believed difference between gauges counts for. */
  private static final double BELIEVED_GAUGES = 5;

  private final FleetNorms norms;
  private final SortedMap<String, Integer> families = new TreeMap<>();
  private final SortedMap<String, Integer> gauges = new TreeMap<>();
  private final SortedMap<String, Integer> sites = new TreeMap<>();
  private final List<CrossedBlock> blocks = new ArrayList<>();
  private final Set<String> chosenSites;
  private final double[] ambientSums;
  private final int[] tests;

  /** One engine with the tests of it that count, and their levels; null without any. */
  private record Used(EngineHistory history, List<CompressionTest> tests, EngineLevels levels) {}

  private SiteLevelFit(List<EngineHistory> histories, FleetNorms norms) {
    this.norms = norms;
    List<EngineHistory> sorted = new ArrayList<>(histories);
    sorted.sort(
        Comparator.comparing(EngineHistory::engineId).thenComparing(EngineHistory::vehicleId));
    SiteChoice choice = new SiteChoice();
    sorted.forEach(h -> known(h).forEach(t -> choice.add(t.siteId(), t.gaugeId())));
    chosenSites = choice.chosen();
    List<Used> used =
        sorted.parallelStream().map(this::used).filter(u -> !u.tests().isEmpty()).toList();
    for (Used engine : used) {
      for (CompressionTest test : engine.tests()) {
        families.put(engine.history().familyId(), 0);
        gauges.put(test.gaugeId(), 0);
        sites.put(test.siteId(), 0);
      }
    }
    List.of(families, gauges, sites).forEach(SiteLevelFit::number);
    ambientSums = new double[sites.size()];
    tests = new int[sites.size()];
    used.forEach(this::add);
  }

  /** Engines that came with their vehicle, families that are known, usages that are stated. */
  static SiteLevels of(List<EngineHistory> histories, FleetNorms norms) {
    return new SiteLevelFit(histories, norms).solve();
  }

  private static void number(SortedMap<String, Integer> names) {
    int next = 0;
    for (var entry : names.entrySet()) {
      entry.setValue(next++);
    }
  }

  private List<CompressionTest> usable(EngineHistory history) {
    return known(history).stream().filter(t -> chosenSites.contains(t.siteId())).toList();
  }

  private List<CompressionTest> known(EngineHistory history) {
    FamilyNorm norm = norms.families().get(history.familyId());
    if (norm == null || norm.range().engines() == 0 || !history.originalEngine()) {
      return List.of();
    }
    return EngineReadings.usedTests(history).stream()
        .filter(t -> !Double.isNaN(norm.axis().usageOf(t)))
        .toList();
  }

  private Used used(EngineHistory history) {
    List<CompressionTest> used = usable(history);
    if (used.isEmpty()) {
      return new Used(history, used, null);
    }
    FamilyNorm norm = norms.families().get(history.familyId());
    EngineReadings readings =
        EngineReadings.of(history, used, norm.axis(), g -> norms.gauge(g).resolutionKpa());
    EngineResiduals model = EngineResiduals.of(readings, norm, norms);
    return new Used(history, used, EngineLevels.of(model, norm, 1, EngineLevels.Summary.MEDIAN));
  }

  private void add(Used engine) {
    List<CompressionTest> used = engine.tests();
    int[][] effects = new int[used.size()][];
    double[] values = new double[used.size()];
    for (int t = 0; t < values.length; t++) {
      CompressionTest test = used.get(t);
      int site = sites.get(test.siteId());
      effects[t] = new int[] {gauges.get(test.gaugeId()), gauges.size() + site};
      values[t] =
          engine.levels().deviation()[t]
              + norms.gauge(test.gaugeId()).offsetLogOn(test.testedAt().toLocalDate());
      ambientSums[site] += Math.log(test.ambientHpa() / Limits.REFERENCE_AMBIENT_HPA);
      tests[site]++;
    }
    int family = families.get(engine.history().familyId());
    blocks.add(new CrossedBlock(family, effects, values, engine.levels().precision()));
  }

  private SiteLevels solve() {
    double gaugeVariance = norms.gaugeVariance();
    double[] variances = variances(gaugeVariance);
    CrossedEffects effects = CrossedEffects.solve(blocks, families.size(), variances);
    for (int i = 0; i < REWEIGHTINGS; i++) {
      CrossedEffects found = effects;
      List<CrossedBlock> weighted = blocks.stream().map(b -> b.scaled(weight(b, found))).toList();
      gaugeVariance = gaugeVariance(effects, gaugeVariance);
      variances = variances(gaugeVariance);
      effects = CrossedEffects.solve(weighted, families.size(), variances);
    }
    return levels(effects);
  }

  private double[] variances(double gaugeVariance) {
    double[] variances = new double[gauges.size() + sites.size()];
    Arrays.fill(variances, 0, gauges.size(), gaugeVariance);
    Arrays.fill(variances, gauges.size(), variances.length, WIDE_VARIANCE);
    return variances;
  }

  /**
   * How gauges differ within sites (Schall, 1991, Biometrika 78:719-727), drawn to the believed
   * figure: in the fleet's figure, errors of sites may stand for differences of gauges.
   */
  private double gaugeVariance(CrossedEffects effects, double present) {
    double believed = norms.priors().of(Fuel.PETROL).gaugeVariance();
    double sum = BELIEVED_GAUGES * believed;
    double count = BELIEVED_GAUGES;
    for (int g = 0; g < gauges.size(); g++) {
      sum += effects.gaugeOffsets()[g] * effects.gaugeOffsets()[g];
      count += Math.max(0, 1 - effects.gaugeErrors()[g][g] / present);
    }
    return sum / count;
  }

  private SiteLevels levels(CrossedEffects effects) {
    int from = gauges.size();
    double[] logAmbient = new double[tests.length];
    double[][] errors = new double[tests.length][];
    for (int s = 0; s < tests.length; s++) {
      logAmbient[s] = ambientSums[s] / tests[s];
      errors[s] = Arrays.copyOfRange(effects.gaugeErrors()[from + s], from, from + tests.length);
    }
    return new SiteLevels(
        List.copyOf(sites.keySet()),
        logAmbient,
        tests,
        Arrays.copyOfRange(effects.gaugeOffsets(), from, from + tests.length),
        errors);
  }

  private static double weight(CrossedBlock engine, CrossedEffects found) {
    double score = 0;
    double information = 0;
    for (int t = 0; t < engine.values().length; t++) {
      double left = engine.values()[t] - found.familyMeans()[engine.family()];
      for (int effect : engine.effects()[t]) {
        left -= found.gaugeOffsets()[effect];
      }
      for (double w : engine.precision()[t]) {
        score += w * left;
        information += w;
      }
    }
    return Math.min(1, HUBER_LIMIT * Math.sqrt(information) / Math.abs(score));
  }
}

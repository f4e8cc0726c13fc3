package borecensus.benchmark;

import borecensus.benchmark.RelationalAnswers.RankedEngine;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import scala.Tuple2;

/** One bucket of vehicles with their families: sums by engine, and the tests of each family. */
final class EngineSums implements Serializable {
  static final Comparator<RankedEngine> FURTHEST_BELOW_FIRST =
      Comparator.comparingDouble(RankedEngine::meanDeviation)
          .thenComparing(RankedEngine::vehicleId);

  private final Map<String, Integer> placeOf = new HashMap<>();
  private final List<String> vehicleIds = new ArrayList<>();
  private final List<String> familyIds = new ArrayList<>();
  private final long[] tests;
  private final double[] levelSums;
  private final Map<String, FamilyTests> families = new HashMap<>();

  private EngineSums(int vehicles) {
    tests = new long[vehicles];
    levelSums = new double[vehicles];
  }

  /** Brings tests and vehicles together; a test of an unknown vehicle counts nowhere. */
  static EngineSums of(Iterable<TestBlock> tests, Iterable<VehicleBlock> vehicles) {
    int known = 0;
    for (VehicleBlock block : vehicles) {
      known += block.vehicleIds().length;
    }
    EngineSums sums = new EngineSums(known);
    vehicles.forEach(sums::know);
    tests.forEach(sums::add);
    return sums;
  }

  private void know(VehicleBlock block) {
    for (int v = 0; v < block.vehicleIds().length; v++) {
      placeOf.put(block.vehicleIds()[v], vehicleIds.size());
      vehicleIds.add(block.vehicleIds()[v]);
      familyIds.add(block.familyIds()[v]);
    }
  }

  private void add(TestBlock block) {
    int vehicles = block.vehicleIds().length;
    int[] place = new int[vehicles];
    FamilyTests[] family = new FamilyTests[vehicles];
    for (int v = 0; v < vehicles; v++) {
      place[v] = placeOf.getOrDefault(block.vehicleIds()[v], -1);
      family[v] = place[v] < 0 ? null : familyTests(familyIds.get(place[v]));
    }
    for (int t = 0; t < block.vehicleOf().length; t++) {
      int v = block.vehicleOf()[t];
      if (place[v] >= 0) {
        tests[place[v]]++;
        levelSums[place[v]] += block.levels()[t];
        family[v].levels.add(block.levels()[t]);
        family[v].spreadsPct.add(block.spreadsPct()[t]);
      }
    }
  }

  private FamilyTests familyTests(String familyId) {
    return families.computeIfAbsent(familyId, id -> new FamilyTests());
  }

  /** Levels and spreads of the tests of each family. */
  Iterator<Tuple2<String, double[][]>> familyBlocks() {
    return families.entrySet().stream()
        .map(
            family ->
                new Tuple2<>(
                    family.getKey(),
                    new double[][] {
                      family.getValue().levels.toArray(), family.getValue().spreadsPct.toArray()
                    }))
        .iterator();
  }

  /** The engines furthest below the middle of their family, furthest first. */
  List<RankedEngine> ranked(Map<String, Double> middles) {
    List<RankedEngine> engines = new ArrayList<>();
    for (int e = 0; e < tests.length; e++) {
      if (tests[e] > 0) {
        double deviation = levelSums[e] / tests[e] - middles.get(familyIds.get(e));
        engines.add(new RankedEngine(vehicleIds.get(e), tests[e], deviation));
      }
    }
    return first(engines);
  }

  /** As many of the engines as the list is long, in order. */
  static List<RankedEngine> first(List<RankedEngine> engines) {
    RankedEngine[] sorted = engines.toArray(new RankedEngine[0]);
    Arrays.sort(sorted, FURTHEST_BELOW_FIRST);
    int length = Math.min(RelationalAnswers.MOST_RANKED, sorted.length);
    return List.of(Arrays.copyOf(sorted, length));
  }

  private static final class FamilyTests implements Serializable {
    private final Numbers levels = new Numbers();
    private final Numbers spreadsPct = new Numbers();
  }
}

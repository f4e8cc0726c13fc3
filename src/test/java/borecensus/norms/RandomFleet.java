package borecensus.norms;

import borecensus.domain.AmbientSource;
import borecensus.domain.Banks;
import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.WetTest;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.math3.random.Well19937c;

/** A fleet drawn from the model with a fixed seed, and its truth. */
public final class RandomFleet {
  public final List<EngineHistory> histories = new ArrayList<>();
  public final SortedMap<String, Family> families = new TreeMap<>();
  public final SortedMap<String, Gauge> gauges = new TreeMap<>();
  public final SortedMap<String, Double> gaugeOffsets = new TreeMap<>();
  public final SortedMap<String, double[]> positions = new TreeMap<>();

  /** Planted fault by engine. */
  public final SortedMap<String, Hypothesis> faults = new TreeMap<>();

  private final FleetPlan plan;
  private final Well19937c random;

  public RandomFleet(FleetPlan plan, long seed) {
    this.plan = plan;
    this.random = new Well19937c(seed);
    for (int g = 0; g < plan.gauges(); g++) {
      String id = String.format(Locale.ROOT, "G%03d", g);
      gauges.put(id, new Gauge(id, PressureUnit.KPA, plan.resolutionKpa(), Double.NaN));
      gaugeOffsets.put(id, plan.gaugeSd() * random.nextGaussian());
    }
    plan.families().forEach(this::addFamily);
  }

  private void addFamily(FleetPlan.FamilyPlan family) {
    int n = family.cylinders();
    families.put(
        family.familyId(),
        new Family(
            family.familyId(),
            Fuel.DIESEL,
            n,
            Banks.parse(family.banks(), n),
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            WetTest.FORBIDDEN));
    double[] effects = new double[n];
    for (int c = 0; c < n; c++) {
      effects[c] = 0.006 * random.nextGaussian();
    }
    double mean = Arrays.stream(effects).average().orElse(0);
    positions.put(family.familyId(), Arrays.stream(effects).map(e -> e - mean).toArray());
    for (int e = 0; e < family.engines(); e++) {
      addEngine(family, family.familyId() + String.format(Locale.ROOT, "-%04d", e));
    }
  }

  private void addEngine(FleetPlan.FamilyPlan family, String engineId) {
    int tests = 1 + random.nextInt(plan.mostTests());
    double[] units = new double[tests];
    units[0] = 0.2 + 2.3 * random.nextDouble();
    for (int t = 1; t < tests; t++) {
      units[t] = units[t - 1] + 0.1 + 0.3 * random.nextDouble();
    }
    double[][] y = healthy(family, units);
    if (random.nextDouble() < plan.faultShare()) {
      faults.put(engineId, plant(y, families.get(family.familyId())));
    }
    List<CompressionTest> list = new ArrayList<>();
    for (int t = 0; t < tests; t++) {
      String gaugeId = gaugeId(random.nextInt(plan.gauges()));
      list.add(test(engineId, t, units[t] * 1e5, gaugeId, rounded(y[t], gaugeId)));
    }
    histories.add(new EngineHistory("V" + engineId, engineId, family.familyId(), "S1", true, list));
  }

  private String gaugeId(int number) {
    return String.format(Locale.ROOT, "G%03d", number);
  }

  private double[][] healthy(FleetPlan.FamilyPlan family, double[] units) {
    VarianceComponents v = FleetPlan.TRUE;
    double engine = normal(v.engine());
    double slope = normal(v.slope());
    double[] lasting = new double[family.cylinders()];
    for (int c = 0; c < lasting.length; c++) {
      lasting[c] = normal(v.cylinder()) + positions.get(family.familyId())[c];
    }
    double[][] y = new double[units.length][lasting.length];
    for (int t = 0; t < units.length; t++) {
      double level = family.mean(units[t]) + engine + slope * units[t] + noise(v.test());
      for (int c = 0; c < lasting.length; c++) {
        y[t][c] = level + lasting[c] + noise(v.reading());
      }
    }
    return y;
  }

  private double normal(double variance) {
    return Math.sqrt(variance) * random.nextGaussian();
  }

  /** Noise of a test or a reading; Student's t is scaled to the variance asked for. */
  private double noise(double variance) {
    if (plan.noise() == FleetPlan.Noise.NORMAL) {
      return normal(variance);
    }
    double squares = 0;
    for (int i = 0; i < 4; i++) {
      double g = random.nextGaussian();
      squares += g * g;
    }
    return normal(variance / 2) / Math.sqrt(squares / 4);
  }

  private double[] rounded(double[] logs, String gaugeId) {
    double step = plan.resolutionKpa();
    double offset = gaugeOffsets.get(gaugeId);
    return Arrays.stream(logs).map(l -> step * Math.rint(Math.exp(l + offset) / step)).toArray();
  }

  private Hypothesis plant(double[][] y, Family family) {
    Hypothesis[] kinds = {
      Hypothesis.LOW_CYLINDER, Hypothesis.FALLING_CYLINDER, Hypothesis.LOW_CYLINDER,
      Hypothesis.FALLING_CYLINDER, Hypothesis.LOW_ADJACENT_PAIR, Hypothesis.LOW_OVERALL,
      Hypothesis.FALLING_LEVEL, Hypothesis.HIGH_CYLINDER
    };
    Hypothesis kind = kinds[random.nextInt(kinds.length)];
    double size = Math.min(0.9, 0.15 * Math.exp(0.6 * random.nextGaussian()));
    List<int[]> sets = CylinderSets.of(kind, family);
    int[] set = sets.get(random.nextInt(sets.size()));
    boolean falls = kind == Hypothesis.FALLING_CYLINDER || kind == Hypothesis.FALLING_LEVEL;
    int onset = falls && y.length > 1 ? 1 + random.nextInt(y.length - 1) : 0;
    for (int t = onset; t < y.length; t++) {
      for (int c : set) {
        y[t][c] += kind.sign() * size;
      }
    }
    return kind;
  }

  /** A trusted test at reference ambient pressure. */
  public static CompressionTest test(
      String engineId, int number, double km, String gaugeId, double[] kpa) {
    return new CompressionTest(
        engineId + "-T" + number,
        engineId,
        LocalDateTime.of(2020, 1, 1, 8, 0).plusDays(100L * number),
        km,
        Double.NaN,
        "S1",
        gaugeId,
        SheetKind.DRY,
        1013.25,
        AmbientSource.STATION_PRESSURE,
        kpa,
        kpa,
        new double[0],
        Double.NaN,
        Double.NaN,
        List.of(),
        "sheets/test.csv",
        number + 1);
  }

  /** Average precision of a ranking (largest first), ties broken by order. */
  public static double averagePrecision(double[] score, boolean[] truth) {
    Integer[] order = new Integer[score.length];
    Arrays.setAll(order, i -> i);
    Arrays.sort(order, (a, b) -> Double.compare(score[b], score[a]));
    double found = 0;
    double sum = 0;
    for (int rank = 0; rank < order.length; rank++) {
      if (truth[order[rank]]) {
        found++;
        sum += found / (rank + 1);
      }
    }
    return sum / found;
  }
}

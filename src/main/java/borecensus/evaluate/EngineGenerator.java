package borecensus.evaluate;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.Family;
import borecensus.norms.VarianceComponents;
import borecensus.registers.Registers;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.random.RandomGenerator;
import org.apache.commons.math3.random.Well19937c;

/** Draws one engine and its tests, each from a stream of its own. */
final class EngineGenerator {
  private static final LocalDateTime FIRST_DAY = LocalDateTime.of(2012, 1, 2, 8, 0);
  private static final double KM_PER_UNIT = 100_000;
  private static final double DAYS_PER_UNIT = 600;
  private static final double AT_HOME_SHARE = 0.85;
  private static final double USUAL_MOST_TESTS = 12;

  private final FleetPlan plan;
  private final Bench bench;
  private final List<String> siteIds;
  private final GaugeStock gauges;

  EngineGenerator(FleetPlan plan, Registers registers, GaugeStock gauges) {
    this.plan = plan;
    this.bench = new Bench(registers);
    this.siteIds = List.copyOf(registers.sites().keySet());
    this.gauges = gauges;
  }

  TrueEngine draw(TrueFamily family, int number, long seed) {
    RandomGenerator random = stream(number, seed);
    return draw(family, number, usage(1 + random.nextInt(plan.mostTests()), random), random);
  }

  /** The same for an engine of so many tests; many tests stand close together. */
  TrueEngine drawTested(TrueFamily family, int number, long seed, int tests) {
    RandomGenerator random = stream(number, seed);
    return draw(family, number, usage(tests, random), random);
  }

  private static RandomGenerator stream(int number, long seed) {
    return new Well19937c(new int[] {(int) seed, (int) (seed >> 32), number});
  }

  private TrueEngine draw(TrueFamily family, int number, double[] usage, RandomGenerator random) {
    String engineId = FleetGenerator.id("E", number);
    Optional<TrueFault> fault =
        random.nextDouble() < family.faultShare()
            ? Optional.of(fault(family.family(), usage, random))
            : Optional.empty();
    double[][] logKpa = healthy(family, usage, random);
    fault.ifPresent(f -> plant(f, logKpa));
    int home = random.nextInt(siteIds.size());
    List<CompressionTest> tests = new ArrayList<>();
    double[] weather = new double[usage.length];
    for (int t = 0; t < usage.length; t++) {
      int site = random.nextDouble() < AT_HOME_SHARE ? home : random.nextInt(siteIds.size());
      Bench.Result result = test(engineId, t, usage[t], site, logKpa[t], random);
      tests.add(result.test());
      weather[t] = result.weatherVariance();
    }
    EngineHistory history =
        new EngineHistory(
            engineId, engineId, family.family().familyId(), siteIds.get(home), true, tests);
    return new TrueEngine(history, usage, weather, fault);
  }

  private static double[] usage(int tests, RandomGenerator random) {
    double[] usage = new double[tests];
    double step = 0.25 * Math.min(1, USUAL_MOST_TESTS / tests);
    usage[0] = 0.05 + 2.6 * random.nextDouble();
    for (int t = 1; t < usage.length; t++) {
      usage[t] = usage[t - 1] + step * Math.exp(0.4 * random.nextGaussian());
    }
    return usage;
  }

  private TrueFault fault(Family family, double[] usage, RandomGenerator random) {
    List<FaultKind> kinds = plan.mix().kinds(family);
    FaultKind kind = kinds.get(pick(plan.mix().weights(family), random.nextDouble()));
    List<int[]> sets = kind.sets(family);
    Course course = kind.courses().get(random.nextInt(kind.courses().size()));
    double from = FaultCase.earliestOnset(usage);
    double onset = from + random.nextDouble() * (usage[usage.length - 1] - from);
    return new TrueFault(
        kind,
        sets.get(random.nextInt(sets.size())),
        course.reaches(usage, onset),
        kind.logShift(plan.severity().quantile(random.nextDouble())));
  }

  private static int pick(double[] weights, double p) {
    double sum = 0;
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i];
      if (p < sum) {
        return i;
      }
    }
    return weights.length - 1;
  }

  private double[][] healthy(TrueFamily family, double[] usage, RandomGenerator random) {
    VarianceComponents v = family.components();
    int cylinders = family.family().cylinders();
    double engine = Math.sqrt(v.engine()) * random.nextGaussian();
    double slope = Math.sqrt(v.slope()) * random.nextGaussian();
    double[] lasting = new double[cylinders];
    for (int c = 0; c < cylinders; c++) {
      lasting[c] = family.positions()[c] + Math.sqrt(v.cylinder()) * random.nextGaussian();
    }
    double[][] logKpa = new double[usage.length][cylinders];
    for (int t = 0; t < usage.length; t++) {
      double noise = Math.sqrt(v.test()) * plan.noise().draw(random);
      double level = family.level().at(usage[t]) + engine + slope * usage[t] + noise;
      for (int c = 0; c < cylinders; c++) {
        logKpa[t][c] = level + lasting[c] + Math.sqrt(v.reading()) * plan.noise().draw(random);
      }
    }
    return logKpa;
  }

  private static void plant(TrueFault fault, double[][] logKpa) {
    for (int t = 0; t < logKpa.length; t++) {
      for (int c : fault.cylinders()) {
        logKpa[t][c] += fault.reach()[t] * fault.logShift();
      }
    }
  }

  private Bench.Result test(
      String engineId,
      int number,
      double usage,
      int site,
      double[] logKpa,
      RandomGenerator random) {
    LocalDateTime day = FIRST_DAY.plusDays(Math.round(usage * DAYS_PER_UNIT));
    String gaugeId = gauges.pick(site, random);
    double offsetLog = gauges.offsetLog(gaugeId, day.toLocalDate());
    double[] onGauge = logKpa.clone();
    for (int c = 0; c < onGauge.length; c++) {
      onGauge[c] += offsetLog;
    }
    String testId = engineId + "-" + number;
    double km = Math.rint(usage * KM_PER_UNIT);
    return bench.test(
        new Bench.Subject(testId, engineId, km, siteIds.get(site), gaugeId), day, onGauge, random);
  }
}

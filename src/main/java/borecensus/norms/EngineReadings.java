package borecensus.norms;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.statistics.Quantiles;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;

/**
 * The trusted tests of one engine as numbers, oldest first. The arrays are shared, not copied: they
 * are read only.
 *
 * @param ownDistance whether the odometer is the engine's own
 * @param usage model units; NaN where the sheet carries none
 * @param conditions by test
 * @param logKpa log reading by test and cylinder; NaN where not read, and never below the middle
 *     reading of its test by more than the limit of a single deviation
 * @param roundingVariance by test, of the log reading
 * @param halfStep by test, half the dial's step as a share of the middle reading; 0 where unknown
 * @param known what an inspection has told of the engine
 */
public record EngineReadings(
    String engineId,
    String familyId,
    boolean ownDistance,
    double[] usage,
    String[] gaugeIds,
    TestConditions[] conditions,
    double[][] logKpa,
    double[] roundingVariance,
    double[] halfStep,
    KnownState known) {

  /** An engine that was never inspected. */
  EngineReadings(
      String engineId,
      String familyId,
      boolean ownDistance,
      double[] usage,
      String[] gaugeIds,
      TestConditions[] conditions,
      double[][] logKpa,
      double[] roundingVariance,
      double[] halfStep) {
    this(
        engineId,
        familyId,
        ownDistance,
        usage,
        gaugeIds,
        conditions,
        logKpa,
        roundingVariance,
        halfStep,
        KnownState.UNKNOWN);
  }

  /** How many tests at most are used; the oldest are left out. */
  static final int MAX_TESTS = 12;

  /**
   * The largest believed deviation of a log reading, log 0.4 down and as much as exp 0.4 up: beyond
   * it a reading says "dead" or "wrong" and its size says nothing more.
   */
  static final double LOWEST_DEVIATION = Math.log(0.4);

  static final double HIGHEST_DEVIATION = 0.4;

  /** Readings within this share of each other are well within the limit of 0.4. */
  private static final double CLOSE_SHARE = 0.5;

  static EngineReadings of(
      EngineHistory history, UsageAxis axis, ToDoubleFunction<String> resolutionKpaByGauge) {
    return of(history, usedTests(history), axis, resolutionKpaByGauge);
  }

  /** The last trusted tests, as many as are used. */
  static List<CompressionTest> usedTests(EngineHistory history) {
    List<CompressionTest> tests = history.trustedTests();
    return tests.subList(Math.max(0, tests.size() - MAX_TESTS), tests.size());
  }

  /** The engine with these of its tests, trusted or not. */
  static EngineReadings of(
      EngineHistory history,
      List<CompressionTest> used,
      UsageAxis axis,
      ToDoubleFunction<String> resolutionKpaByGauge) {
    double[] resolutionKpa = new double[used.size()];
    for (int t = 0; t < resolutionKpa.length; t++) {
      resolutionKpa[t] = resolutionKpaByGauge.applyAsDouble(used.get(t).gaugeId());
    }
    return of(history, used, axis, resolutionKpa);
  }

  /** The same, with the steps of the dials by test. */
  static EngineReadings of(
      EngineHistory history, List<CompressionTest> used, UsageAxis axis, double[] resolutionKpa) {
    int tests = used.size();
    double[] usage = new double[tests];
    String[] gaugeIds = new String[tests];
    TestConditions[] conditions = new TestConditions[tests];
    double[][] logKpa = new double[tests][];
    double[] roundingVariance = new double[tests];
    double[] halfStep = new double[tests];
    for (int t = 0; t < tests; t++) {
      CompressionTest test = used.get(t);
      usage[t] = axis.toUnits(axis.usageOf(test));
      gaugeIds[t] = test.gaugeId();
      conditions[t] = TestConditions.of(test);
      logKpa[t] = logs(test.referenceKpa());
      halfStep[t] = halfStep(test, resolutionKpa[t]);
      roundingVariance[t] = halfStep[t] * halfStep[t] / 3;
    }
    return new EngineReadings(
        history.engineId(),
        history.familyId(),
        history.originalEngine(),
        usage,
        gaugeIds,
        conditions,
        logKpa,
        roundingVariance,
        halfStep,
        KnownState.of(history));
  }

  /** How many tests. */
  public int tests() {
    return usage.length;
  }

  /** The tests whose usage is known. */
  EngineReadings withKnownUsage() {
    int[] kept = IntStream.range(0, tests()).filter(t -> !Double.isNaN(usage[t])).toArray();
    return kept.length == tests() ? this : only(kept);
  }

  private EngineReadings only(int[] kept) {
    return new EngineReadings(
        engineId,
        familyId,
        ownDistance,
        IntStream.of(kept).mapToDouble(t -> usage[t]).toArray(),
        IntStream.of(kept).mapToObj(t -> gaugeIds[t]).toArray(String[]::new),
        IntStream.of(kept).mapToObj(t -> conditions[t]).toArray(TestConditions[]::new),
        IntStream.of(kept).mapToObj(t -> logKpa[t]).toArray(double[][]::new),
        IntStream.of(kept).mapToDouble(t -> roundingVariance[t]).toArray(),
        IntStream.of(kept).mapToDouble(t -> halfStep[t]).toArray(),
        known);
  }

  static double limited(double deviation) {
    return Math.max(LOWEST_DEVIATION, Math.min(HIGHEST_DEVIATION, deviation));
  }

  /** Log readings, none further below the middle one than the limit; NaN where not read. */
  static double[] logs(double[] kpa) {
    double[] logs = new double[kpa.length];
    if (areClose(kpa)) {
      for (int c = 0; c < logs.length; c++) {
        logs[c] = Math.log(kpa[c]);
      }
      return logs;
    }
    double middle = middle(kpa);
    double floor = Double.isNaN(middle) ? 0 : Math.log(middle) + LOWEST_DEVIATION;
    for (int c = 0; c < logs.length; c++) {
      double read = kpa[c] > 0 ? Math.log(kpa[c]) : floor;
      logs[c] = Double.isNaN(kpa[c]) ? Double.NaN : Math.max(read, floor);
    }
    return logs;
  }

  /**
   * Whether all were read, and none lies far enough below another one to lie below the limit. Most
   * tests are like that, and need no middle.
   */
  private static boolean areClose(double[] kpa) {
    double lowest = Double.POSITIVE_INFINITY;
    double highest = 0;
    for (double k : kpa) {
      if (!(k > 0)) {
        return false;
      }
      lowest = Math.min(lowest, k);
      highest = Math.max(highest, k);
    }
    return lowest > CLOSE_SHARE * highest;
  }

  /** A uniform error of one step has the variance halfStep^2 / 3 (Sheppard, 1898). */
  private static double halfStep(CompressionTest test, double resolutionKpa) {
    double half = resolutionKpa / 2 / middle(test.gaugeKpa());
    return half > 0 ? half : 0;
  }

  /** Median of the readings above zero; NaN when there is none. */
  private static double middle(double[] kpa) {
    double[] sorted = new double[kpa.length];
    int count = 0;
    for (double k : kpa) {
      if (k > 0) {
        int at = count++;
        for (; at > 0 && sorted[at - 1] > k; at--) {
          sorted[at] = sorted[at - 1];
        }
        sorted[at] = k;
      }
    }
    return Quantiles.quantileOfSorted(
        count == sorted.length ? sorted : Arrays.copyOf(sorted, count), 0.5);
  }
}

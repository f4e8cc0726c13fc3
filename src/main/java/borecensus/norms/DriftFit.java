package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Offsets of the gauges by period: predictions about each gauge's own mean, the other gauges and
 * the families given, averaged over whether the gauge drifts at all by how well that explains its
 * tests. How many gauges drift and by how much is found by expectation and maximisation (Dempster,
 * Laird and Rubin, 1977), so that a fleet of steady gauges keeps constant offsets.
 */
final class DriftFit {
  private static final int ITERATIONS = 60;

  /** How many gauges the believed share and variance count for. */
  private static final double BELIEVED_GAUGES = 5;

  /** A gauge that drifts with less than this probability is taken to be steady. */
  private static final double STEADY = 0.05;

  private final FleetNorms norms;
  private final SortedMap<String, Sums> sums = new TreeMap<>();

  /** Plain weighted sums of one gauge, by period. */
  private record Sums(GaugeOffset gauge, double[][] information, double[] score) {
    static Sums of(GaugeOffset gauge) {
      int n = gauge.periods().size();
      return new Sums(gauge, Zeros.square(n), new double[n]);
    }
  }

  DriftFit(FleetNorms norms) {
    this.norms = norms;
    norms
        .gauges()
        .forEach(
            (id, gauge) -> {
              if (!gauge.periods().isEmpty()) {
                sums.put(id, Sums.of(gauge));
              }
            });
  }

  /** Whether no gauge has periods, so that engines need not be added. */
  boolean isEmpty() {
    return sums.isEmpty();
  }

  void addEngine(EngineLevels engine) {
    EngineReadings readings = engine.readings();
    int n = readings.tests();
    for (int t = 0; t < n; t++) {
      String gaugeId = readings.gaugeIds()[t];
      Sums ofGauge = sums.get(gaugeId);
      if (ofGauge == null) {
        continue;
      }
      GaugeOffset gauge = ofGauge.gauge();
      int period = gauge.periodOn(readings.conditions()[t].day());
      for (int u = 0; u < n; u++) {
        double w = engine.weight() * engine.precision()[t][u];
        ofGauge.score()[period] += w * engine.deviation()[u];
        if (gaugeId.equals(readings.gaugeIds()[u])) {
          int other = u == t ? period : gauge.periodOn(readings.conditions()[u].day());
          ofGauge.information()[period][other] += w;
          ofGauge.score()[period] += w * gauge.driftLog(other);
        }
      }
    }
  }

  /** The norms with the drift that the engines added so far show. */
  FleetNorms fit() {
    if (isEmpty()) {
      return norms;
    }
    SortedMap<String, DriftBlock> blocks = new TreeMap<>();
    sums.forEach((id, sum) -> blocks.put(id, DriftBlock.of(sum.information(), sum.score())));
    GaugeDrift drift = drift(List.copyOf(blocks.values()));
    SortedMap<String, GaugeOffset> gauges = new TreeMap<>(norms.gauges());
    blocks.forEach((id, block) -> gauges.computeIfPresent(id, (g, o) -> drifted(o, block, drift)));
    return norms.withGauges(gauges, norms.gaugeVariance()).withGaugeDrift(drift);
  }

  static GaugeDrift drift(List<DriftBlock> gauges) {
    GaugeDrift drift = GaugeDrift.BELIEVED;
    for (int i = 0; i < ITERATIONS; i++) {
      double drifting = BELIEVED_GAUGES * GaugeDrift.BELIEVED.share();
      double squares = BELIEVED_GAUGES * GaugeDrift.BELIEVED.variance();
      double count = BELIEVED_GAUGES;
      for (DriftBlock gauge : gauges) {
        DriftBlock.Prediction prediction = gauge.predict(drift.variance());
        double probability = prediction.probability(drift.share());
        double degrees = probability * (gauge.score().length - 1);
        drifting += probability;
        squares += degrees * prediction.meanSquare();
        count += degrees;
      }
      drift = new GaugeDrift(drifting / (gauges.size() + BELIEVED_GAUGES), squares / count);
    }
    return drift;
  }

  /** Deviations are counted from the mean over the gauge's tests. */
  private static GaugeOffset drifted(GaugeOffset gauge, DriftBlock block, GaugeDrift drift) {
    DriftBlock.Prediction prediction = block.predict(drift.variance());
    double likely = prediction.probability(drift.share());
    double probability = likely < STEADY ? 0 : likely;
    double[] deviations =
        Arrays.stream(prediction.deviations()).map(d -> probability * d).toArray();
    double sum = 0;
    double tests = 0;
    for (int p = 0; p < deviations.length; p++) {
      sum += gauge.periods().get(p).tests() * deviations[p];
      tests += gauge.periods().get(p).tests();
    }
    double mean = sum / tests;
    double gaugeError = gauge.standardErrorLog() * gauge.standardErrorLog();
    List<GaugePeriod> periods = new ArrayList<>();
    for (int p = 0; p < deviations.length; p++) {
      double whole = prediction.deviations()[p];
      double error =
          probability * prediction.errors()[p] + probability * (1 - probability) * whole * whole;
      periods.add(
          gauge
              .periods()
              .get(p)
              .with(gauge.offsetLog() + deviations[p] - mean, gaugeError + error));
    }
    return gauge.withPeriods(periods);
  }
}

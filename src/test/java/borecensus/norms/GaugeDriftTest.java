package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Fleets of known truth over some four years, and a published gauge study. */
class GaugeDriftTest {
  private static final LocalDate MID_TIME = LocalDate.of(2022, 1, 1);
  private static final String JUMPING = "G003";
  private static final RandomFleet FLEET = new RandomFleet(FleetPlan.of(800, 0.05), 61);

  private static FleetNorms estimate(List<EngineHistory> histories) {
    return NormEstimator.estimate(histories, FLEET.families, FLEET.gauges, Priors.load());
  }

  /** Engines enter service in one of three years; the gauges then read this much more. */
  private static List<EngineHistory> overYears(ToDoubleFunction<EditedTest> shiftLog) {
    return EditedTest.all(
        FLEET.histories,
        test -> {
          int year = Math.floorMod(test.original.engineId().hashCode(), 3);
          test.testedAt = test.testedAt.plusYears(year);
          test.shiftLog = shiftLog.applyAsDouble(test);
        });
  }

  private static double jump(EditedTest test) {
    boolean late = !test.testedAt.toLocalDate().isBefore(MID_TIME);
    return test.gaugeId.equals(JUMPING) ? (late ? 0.02 : -0.02) : 0;
  }

  private static double none(EditedTest test) {
    return 0;
  }

  /** Root mean square over the tests of the steady gauges, against their common mean. */
  private static double steadyRms(List<EngineHistory> histories, FleetNorms norms) {
    List<Double> errors = new ArrayList<>();
    for (EngineHistory history : histories) {
      for (CompressionTest test : history.tests()) {
        if (!test.gaugeId().equals(JUMPING)) {
          double truth = FLEET.gaugeOffsets.get(test.gaugeId());
          LocalDate day = test.testedAt().toLocalDate();
          errors.add(norms.gauge(test.gaugeId()).offsetLogOn(day) - truth);
        }
      }
    }
    double mean = errors.stream().mapToDouble(e -> e).average().orElseThrow();
    return Math.sqrt(
        errors.stream().mapToDouble(e -> (e - mean) * (e - mean)).average().orElseThrow());
  }

  @Test
  void aJumpOfFourPerCentAtMidTimeIsFollowed() {
    GaugeOffset gauge = estimate(overYears(GaugeDriftTest::jump)).gauge(JUMPING);
    double before = gauge.offsetLogOn(LocalDate.of(2020, 9, 1));
    double after = gauge.offsetLogOn(LocalDate.of(2022, 9, 1));
    // Half-years of 15 tests and more: a noise of some 1.7 % leaves 0.45 % for each of the two.
    assertEquals(0.04, after - before, 0.012);
    for (GaugePeriod period : gauge.periods()) {
      double truth = gauge.offsetLog() + (period.from().isBefore(MID_TIME) ? -0.02 : 0.02);
      assertTrue(period.standardErrorLog() < 0.007, period.toString());
      assertEquals(truth, period.offsetLog(), 0.012, period.toString());
    }
  }

  @Test
  void steadyGaugesLoseLessThanATenthByTheChoice() {
    List<EngineHistory> sameHalfYear =
        EditedTest.all(FLEET.histories, test -> test.testedAt = LocalDateTime.of(2020, 3, 1, 8, 0));
    double constant = steadyRms(sameHalfYear, estimate(sameHalfYear));
    List<EngineHistory> steady = overYears(GaugeDriftTest::none);
    FleetNorms allSteady = estimate(steady);
    assertTrue(steadyRms(steady, allSteady) < 1.1 * constant);
    assertTrue(allSteady.gaugeDrift().share() < 0.1, "" + allSteady.gaugeDrift());
    List<EngineHistory> oneJumps = overYears(GaugeDriftTest::jump);
    assertTrue(steadyRms(oneJumps, estimate(oneJumps)) < 1.1 * constant);
  }

  @Test
  void aJumpingGaugeWidensNoTestNoiseAndNoOtherGauge() {
    double steady = testSd(estimate(overYears(GaugeDriftTest::none)));
    assertEquals(1, testSd(estimate(overYears(GaugeDriftTest::jump))) / steady, 0.02);
  }

  private static double testSd(FleetNorms norms) {
    return Math.sqrt(norms.families().get("F1").components().test());
  }

  @Test
  void aGaugeWithFewTestsHasNoPeriods() {
    RandomFleet small = new RandomFleet(FleetPlan.of(20, 0), 3);
    FleetNorms norms =
        NormEstimator.estimate(small.histories, small.families, small.gauges, Priors.load());
    for (GaugeOffset gauge : norms.gauges().values()) {
      assertTrue(gauge.tests() >= 24 || gauge.periods().isEmpty());
    }
  }

  @Test
  void daysOutsideThePeriodsBelongToTheNearest() {
    GaugeOffset gauge =
        new GaugeOffset("G", 0, 0.001, 40, 5)
            .withPeriods(
                List.of(
                    period("2020-01-01", "2020-06-30", -0.01),
                    period("2021-01-01", "2021-12-31", 0.01)));
    assertEquals(-0.01, gauge.offsetLogOn(LocalDate.of(2019, 5, 1)));
    assertEquals(-0.01, gauge.offsetLogOn(LocalDate.of(2020, 12, 31)));
    assertEquals(0.01, gauge.offsetLogOn(LocalDate.of(2021, 1, 1)));
    assertEquals(0.01, gauge.offsetLogOn(LocalDate.of(2030, 1, 1)));
  }

  @Test
  void everyDayBelongsToTheLastPeriodThatHasBegun() {
    LocalDate first = LocalDate.of(2017, 1, 1);
    for (int count = 1; count <= 9; count++) {
      List<GaugePeriod> periods = new ArrayList<>();
      for (int p = 0; p < count; p++) {
        LocalDate from = first.plusMonths(6L * p);
        periods.add(period(from.toString(), from.plusMonths(6).minusDays(1).toString(), p / 100.0));
      }
      GaugeOffset gauge = new GaugeOffset("G", 0, 0.001, 40, 5).withPeriods(periods);
      for (int p = 0; p < count; p++) {
        assertEquals(p, gauge.periodOn(periods.get(p).from()));
        assertEquals(p, gauge.periodOn(periods.get(p).to()));
        assertEquals(p / 100.0, gauge.offsetLogOn(periods.get(p).to()));
      }
    }
  }

  private static GaugePeriod period(String from, String to, double offsetLog) {
    return new GaugePeriod(LocalDate.parse(from), LocalDate.parse(to), offsetLog, 0.003, 20);
  }

  /**
   * NIST/SEMATECH e-Handbook of Statistical Methods, section 2.6.1 (data set MPC61, public domain):
   * five resistivity probes on five wafers, six days in each of two runs. Mean over the 30 readings
   * of each probe (1, 281, 283, 2062, 2362) in run 1 and run 2, ohm cm.
   */
  private static final double[][] PROBE_MEANS = {
    {97.19049333333332, 97.22601},
    {97.18831, 97.23032},
    {97.17416, 97.21767666666668},
    {97.15082666666669, 97.24916333333331},
    {97.14190666666669, 97.16667}
  };

  /** Of avg ~ 1 + (1|wafer) + (1|probe) + (1|probe:run), lme4 1.1.31 in R 4.2.2, REML. */
  private static final double PROBE_RUN_SD = 0.0350512071232213;

  private static final double RESIDUAL_SD = 0.0465778038503218;

  private static final double[][] PROBE_RUN_PREDICTIONS = {
    {-0.00289021136341124, 0.0306521065359983},
    {-0.00495217459421405, 0.0347225163946788},
    {-0.0183155851510487, 0.0227820178688668},
    {-0.040351833419033, 0.0525183608888193},
    {-0.0487759763283933, -0.0253892208450469}
  };

  private static DriftBlock probe(double[] means, double residualSd) {
    double precision = 30 / (residualSd * residualSd);
    return DriftBlock.of(
        new double[][] {{precision, 0}, {0, precision}},
        new double[] {precision * means[0], precision * means[1]});
  }

  @Test
  void theChangeOfEachProbeBetweenRunsEqualsThePublishedPredictions() {
    for (int p = 0; p < PROBE_MEANS.length; p++) {
      double[] found =
          probe(PROBE_MEANS[p], RESIDUAL_SD).predict(PROBE_RUN_SD * PROBE_RUN_SD).deviations();
      double[] published = PROBE_RUN_PREDICTIONS[p];
      // The published values come from an optimiser stopped near 1e-6 of the largest value.
      assertEquals(published[1] - published[0], found[1] - found[0], 2e-6);
      assertEquals(0, found[0] + found[1], 1e-9);
    }
  }

  /**
   * Means of the same probes over the wafers, less the mean of all probes on the wafer: run 1, run
   * 2.
   */
  private static final double[][] PROBE_BIAS = {
    {0.021354, 0.008042},
    {0.019171, 0.012352},
    {0.005021, -0.000291},
    {-0.018313, 0.031195},
    {-0.027233, -0.051298}
  };

  @Test
  void theProbesOfThePublishedStudyAreFoundToDrift() {
    // In units in which the noise of one reading is 1.5 %, as it is for an engine.
    double unit = 0.015 / RESIDUAL_SD;
    List<DriftBlock> probes = new ArrayList<>();
    for (double[] bias : PROBE_BIAS) {
      probes.add(probe(new double[] {unit * bias[0], unit * bias[1]}, 0.015));
    }
    GaugeDrift drift = DriftFit.drift(probes);
    double probability2062 = probes.get(3).predict(drift.variance()).probability(drift.share());
    double probability283 = probes.get(2).predict(drift.variance()).probability(drift.share());
    // Probe 2062 goes from 0.018 below the others to 0.031 above: four standard errors.
    assertTrue(probability2062 > 0.9, "" + probability2062);
    assertTrue(probability283 < 0.3, "" + probability283);
    assertTrue(drift.share() > 0.1 && drift.share() < 0.6, "" + drift);
  }
}

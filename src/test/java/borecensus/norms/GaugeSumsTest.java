package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.EngineHistory;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Gauges of a fleet of known truth, from norms that a part of it has taught. */
class GaugeSumsTest {
  private static final RandomFleet FLEET = new RandomFleet(FleetPlan.of(900, 0.05), 67);
  private static final FleetNorms PART = norms(every(9));

  private static FleetNorms norms(List<EngineHistory> histories) {
    return NormEstimator.estimate(histories, FLEET.families, FLEET.gauges, Priors.load());
  }

  private static List<EngineHistory> every(int step) {
    return IntStream.range(0, FLEET.histories.size())
        .filter(i -> i % step == 0)
        .mapToObj(FLEET.histories::get)
        .toList();
  }

  private static GaugeSums sums(List<EngineHistory> histories) {
    GaugeSums sums = new GaugeSums(PART);
    for (EngineHistory history : histories) {
      if (sums.learnsFrom(history)) {
        sums.add(EngineResiduals.of(history, PART.families().get(history.familyId()), PART));
      }
    }
    return sums;
  }

  /** Root mean square error, against the mean gauge. */
  private static double error(FleetNorms norms) {
    double[] errors =
        FLEET.gaugeOffsets.entrySet().stream()
            .mapToDouble(e -> norms.gauge(e.getKey()).offsetLog() - e.getValue())
            .toArray();
    double mean = IntStream.range(0, errors.length).mapToDouble(i -> errors[i]).average().orElse(0);
    return Math.sqrt(
        IntStream.range(0, errors.length)
            .mapToDouble(i -> (errors[i] - mean) * (errors[i] - mean))
            .average()
            .orElseThrow());
  }

  @Test
  void theWholeFleetTellsItsGaugesNearlyAsWellAsIfAllNormsWereLearnedFromIt() {
    FleetNorms refined = sums(FLEET.histories).refined();
    FleetNorms whole = norms(FLEET.histories);
    assertTrue(error(refined) < 0.7 * error(PART), error(refined) + ", part " + error(PART));
    assertTrue(error(refined) < 1.3 * error(whole), error(refined) + ", whole " + error(whole));
  }

  @Test
  void standardErrorsAndTestsAreThoseOfTheWholeFleet() {
    FleetNorms refined = sums(FLEET.histories).refined();
    FleetNorms whole = norms(FLEET.histories);
    refined
        .gauges()
        .forEach(
            (id, gauge) -> {
              assertEquals(whole.gauge(id).tests(), gauge.tests(), id);
              assertEquals(
                  1, gauge.standardErrorLog() / whole.gauge(id).standardErrorLog(), 0.25, id);
            });
  }

  @Test
  void theSumsAreTheSameHoweverTheFleetIsDivided() {
    GaugeSums divided = new GaugeSums(PART);
    for (int part = 3; part >= 0; part--) {
      int from = part * FLEET.histories.size() / 4;
      int to = (part + 1) * FLEET.histories.size() / 4;
      sums(FLEET.histories.subList(from, to)).sums().forEach(divided::add);
    }
    assertEquals(sums(FLEET.histories).sums(), divided.sums());
    assertEquals(sums(FLEET.histories).refined().gauges(), divided.refined().gauges());
  }

  @Test
  void theMeanOffsetStaysZero() {
    double sum =
        sums(FLEET.histories).refined().gauges().values().stream()
            .mapToDouble(GaugeOffset::offsetLog)
            .sum();
    assertEquals(0, sum, 1e-12);
  }
}

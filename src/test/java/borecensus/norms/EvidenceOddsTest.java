package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is done quickly for a whole sample, against the same done engine by engine. */
class EvidenceOddsTest {
  private static final RandomFleet FLEET = new RandomFleet(FleetPlan.of(240, 0.1), 71);
  private static final FleetNorms NORMS =
      NormEstimator.estimate(FLEET.histories, FLEET.families, FLEET.gauges, Priors.load());

  private static List<FaultEvidence> evidence() {
    return FLEET.histories.stream()
        .map(
            history -> {
              FamilyNorm norm = NORMS.family(history.familyId()).orElseThrow();
              return FaultEvidence.of(HealthyModel.of(history, norm, NORMS), norm, NORMS);
            })
        .toList();
  }

  @Test
  void oddsWeighFaultsAsTheirLogarithmsDo() {
    double[][] sizes = NORMS.faults().sizes().weights();
    for (FaultEvidence engine : evidence()) {
      EvidenceOdds odds = EvidenceOdds.of(engine);
      double[] priors = NORMS.faults().shares().priors(engine.familyId(), engine.tests());
      double[] quick = odds.weigh(priors, odds.sums(sizes));
      double[] byLogs = NORMS.faults().weigh(engine, sizes);
      for (int h = 0; h < quick.length; h++) {
        assertEquals(byLogs[h], quick[h], 1e-12);
      }
    }
  }

  /** A log ratio of a million costs ten digits of what is added to it. */
  @Test
  void whatAnInspectionToldWeighsTheSameBothWays() {
    double[][] sizes = NORMS.faults().sizes().weights();
    for (FaultEvidence engine : evidence()) {
      for (KnownState known : KnownState.values()) {
        FaultEvidence told =
            new FaultEvidence(
                engine.familyId(), engine.tests(), engine.sums(), engine.tails(), known);
        EvidenceOdds odds = EvidenceOdds.of(told);
        double[] priors = NORMS.faults().shares().priors(told.familyId(), told.tests());
        double[] quick = odds.weigh(priors, odds.sums(sizes));
        double[] byLogs = NORMS.faults().weigh(told, sizes);
        for (int h = 0; h < quick.length; h++) {
          assertEquals(byLogs[h], quick[h], 1e-8, known + " " + h);
        }
      }
    }
  }

  @Test
  void aPartOfAFamilyKeepsItsRangeItsOrderAndNoMoreThanAsked() {
    FamilySample whole =
        FamilySample.of(
            FLEET.families.get(FLEET.families.firstKey()),
            Priors.load().of(Fuel.DIESEL),
            FLEET.histories.stream()
                .filter(h -> h.familyId().equals(FLEET.families.firstKey()))
                .toList(),
            NORMS);
    assertSame(whole, whole.part(whole.engines().size()));
    FamilySample part = whole.part(20);
    assertNotSame(whole, part);
    assertEquals(20, part.engines().size());
    assertEquals(max(whole.usages()), max(part.usages()));
    assertEquals(-max(negative(whole.usages())), -max(negative(part.usages())));
    int[] places = part.engines().stream().mapToInt(e -> whole.engines().indexOf(e)).toArray();
    assertTrue(IntStream.range(1, 20).allMatch(i -> places[i] > places[i - 1]));
    part.feeders()
        .forEach(
            f -> assertEquals(part.engines().get(f.index()).engineId(), f.readings().engineId()));
  }

  private static double max(double[] values) {
    return java.util.Arrays.stream(values).max().orElseThrow();
  }

  private static double[] negative(double[] values) {
    return java.util.Arrays.stream(values).map(v -> -v).toArray();
  }
}

package borecensus.norms;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is done quickly for a whole sample, against the same done engine by engine. */
class EvidenceBlockTest {
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

  /** Probabilities of the faults of one engine. */
  private static double[] quick(FaultEvidence engine) {
    double[][] priors = {NORMS.faults().shares().priors(engine.familyId(), engine.tests())};
    EvidenceBlock block = EvidenceBlock.of(List.of(engine), new int[] {0});
    return block.weigh(priors, NORMS.sizes().weights()).faults()[0];
  }

  private static double[] byLogs(FaultEvidence engine) {
    return NORMS.faults().weigh(engine, NORMS.sizes().weights());
  }

  @Test
  void blocksWeighFaultsAsTheirLogarithmsDo() {
    for (FaultEvidence engine : evidence()) {
      double[] quick = quick(engine);
      double[] byLogs = byLogs(engine);
      for (int h = 0; h < quick.length; h++) {
        assertEquals(byLogs[h], quick[h], 1e-12);
      }
    }
  }

  /** A log ratio of a million costs ten digits of what is added to it. */
  @Test
  void whatAnInspectionToldWeighsTheSameBothWays() {
    for (FaultEvidence engine : evidence()) {
      for (KnownState known : KnownState.values()) {
        FaultEvidence told =
            new FaultEvidence(
                engine.familyId(), engine.tests(), engine.sums(), engine.tails(), known);
        double[] quick = quick(told);
        double[] byLogs = byLogs(told);
        for (int h = 0; h < quick.length; h++) {
          assertEquals(byLogs[h], quick[h], 1e-8, known + " " + h);
        }
      }
    }
  }

  @Test
  void aBlockCountsWhatItsEnginesCountOneByOne() {
    List<FaultEvidence> engines = evidence();
    EvidenceGroups groups = EvidenceGroups.of(engines);
    double[][] priors = groups.priors(NORMS.shares());
    double[][] sizes = NORMS.sizes().weights();
    EvidenceBlock.Counts all = EvidenceBlock.of(engines, groups.byEngine()).weigh(priors, sizes);
    double[] faults = new double[Hypothesis.values().length];
    double[][] bySize = new double[faults.length][];
    for (int h = 0; h < faults.length; h++) {
      bySize[h] = new double[sizes[h].length];
    }
    for (int e = 0; e < engines.size(); e++) {
      int[] group = {groups.byEngine()[e]};
      EvidenceBlock.Counts one =
          EvidenceBlock.of(List.of(engines.get(e)), group).weigh(priors, sizes);
      for (int h = 0; h < faults.length; h++) {
        faults[h] += one.faults()[0][h];
        for (int i = 0; i < bySize[h].length; i++) {
          bySize[h][i] += one.sizes()[h][i];
        }
      }
    }
    for (int h = 0; h < faults.length; h++) {
      int fault = h;
      double together = Arrays.stream(all.faults()).mapToDouble(g -> g[fault]).sum();
      assertEquals(faults[h], together, 1e-12 * engines.size());
      assertEquals(together, Arrays.stream(all.sizes()[h]).sum(), 1e-12 * engines.size());
      assertArrayEquals(bySize[h], all.sizes()[h], 1e-12 * engines.size());
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
    return Arrays.stream(values).max().orElseThrow();
  }

  private static double[] negative(double[] values) {
    return Arrays.stream(values).map(v -> -v).toArray();
  }
}

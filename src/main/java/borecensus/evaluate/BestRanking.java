package borecensus.evaluate;

import borecensus.domain.EngineHistory;
import borecensus.norms.FamilyNorm;
import borecensus.norms.FleetNorms;
import borecensus.norms.HealthyModel;
import java.util.List;
import java.util.stream.IntStream;

/** Fault probabilities by the exact likelihood, when the law of faults is known. */
final class BestRanking {
  private BestRanking() {}

  /** With everything known: the best that the data allow. */
  static double[] ofTruth(TrueFleet fleet) {
    return IntStream.range(0, fleet.engines().size())
        .parallel()
        .mapToDouble(i -> ofTruth(fleet.engines().get(i), fleet, i))
        .toArray();
  }

  private static double ofTruth(TrueEngine engine, TrueFleet fleet, int number) {
    return switch (fleet.plan().noise()) {
      case NORMAL -> probability(engine, ReadingLaw.ofTruth(engine, fleet), fleet);
      case HEAVY -> HeavyTailChain.probability(engine, fleet, number);
    };
  }

  /** With the learned norms and the true law of faults: what the norms alone cost. */
  static double[] ofNorms(TrueFleet fleet, FleetNorms norms) {
    return fleet.engines().parallelStream()
        .mapToDouble(
            engine -> {
              EngineHistory history = engine.history();
              FamilyNorm norm = norms.family(history.familyId()).orElseThrow();
              HealthyModel model = HealthyModel.of(history, norm, norms);
              return probability(engine, ReadingLaw.ofModel(model), fleet);
            })
        .toArray();
  }

  private static double probability(TrueEngine engine, ReadingLaw law, TrueFleet fleet) {
    TrueFamily family = fleet.familyOf(engine);
    List<FaultCase> cases =
        FaultCase.all(family.family(), engine.usage(), fleet.plan(), FaultCase.Fineness.FULL);
    double logRatio = FaultOdds.of(new SolvedLaw(law), cases).logRatio();
    return FaultOdds.probability(logRatio, family.faultShare());
  }

  /** The fixed rule's score of every engine. */
  static double[] ofFixedRule(TrueFleet fleet) {
    return fleet.engines().stream()
        .map(engine -> engine.history().tests())
        .mapToDouble(
            tests -> AveragePrecision.fixedRule(tests.get(tests.size() - 1).referenceKpa()))
        .toArray();
  }
}

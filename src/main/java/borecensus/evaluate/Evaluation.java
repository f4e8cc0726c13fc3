package borecensus.evaluate;

import java.util.Arrays;

/** Draws one fleet, lets the model judge it, and compares with the truth. */
final class Evaluation {
  private Evaluation() {}

  static SeedResult run(EvaluationScenario scenario, int engines, long seed) {
    TrueFleet fleet = FleetGenerator.draw(scenario.plan(), engines, seed);
    Pipeline model = Pipeline.run(fleet);
    boolean[] faulty = fleet.faulty();
    double[] best = BestRanking.ofTruth(fleet);
    Marks marks = Marks.of(model.probabilities());
    Marks bestMarks = Marks.of(best);
    return new SeedResult(
        scenario,
        seed,
        faulty.length,
        fleet.engines().stream().mapToInt(engine -> engine.usage().length).sum(),
        AveragePrecision.count(faulty),
        AveragePrecision.of(model.probabilities(), faulty),
        AveragePrecision.of(BestRanking.ofNorms(fleet, model.norms()), faulty),
        AveragePrecision.of(best, faulty),
        AveragePrecision.of(BestRanking.ofFixedRule(fleet), faulty),
        Arrays.stream(model.probabilities()).sum(),
        marks.count(),
        marks.found(faulty),
        bestMarks.count(),
        bestMarks.found(faulty),
        Reliability.of(model.probabilities(), faulty),
        NormErrors.of(fleet, model.norms()),
        model.wallSeconds(),
        model.cpuSeconds());
  }
}

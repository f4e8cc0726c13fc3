package borecensus.evaluate;

/** Draws one fleet, lets the model judge it, and compares with the truth. */
final class Evaluation {
  private Evaluation() {}

  static SeedResult run(EvaluationScenario scenario, int engines, long seed) {
    TrueFleet fleet = FleetGenerator.draw(scenario.plan(), engines, seed);
    Pipeline model = Pipeline.run(fleet);
    boolean[] faulty = fleet.faulty();
    double[] best = BestRanking.ofTruth(fleet);
    return new SeedResult(
        scenario,
        seed,
        faulty.length,
        fleet.engines().stream().mapToInt(engine -> engine.usage().length).sum(),
        AveragePrecision.count(faulty),
        Judged.of(model.probabilities(), faulty),
        Judged.of(BestRanking.ofNorms(fleet, model.norms()), faulty),
        Judged.of(best, faulty),
        AveragePrecision.of(BestRanking.ofFixedRule(fleet), faulty),
        Reliability.of(model.probabilities(), faulty),
        KindCounts.of(fleet, Marks.of(model.probabilities()), Marks.of(best)),
        NormErrors.of(fleet, model.norms()),
        model.wallSeconds(),
        model.cpuSeconds());
  }
}

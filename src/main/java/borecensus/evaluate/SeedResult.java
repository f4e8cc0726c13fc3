package borecensus.evaluate;

/**
 * What was measured on one fleet.
 *
 * @param model by the model's fault probabilities
 * @param ofNorms by the exact likelihood under the learned norms and the true law of faults: the
 *     difference to {@code best} is what the norms cost, the rest what the model's faults cost
 * @param best by the exact likelihood under the true parameters
 * @param apOfRule average precision of the fixed rule
 * @param reliability of the model's probabilities
 */
record SeedResult(
    EvaluationScenario scenario,
    long seed,
    int engines,
    int tests,
    int faulty,
    Judged model,
    Judged ofNorms,
    Judged best,
    double apOfRule,
    Reliability reliability,
    KindCounts kinds,
    NormErrors norms,
    double wallSeconds,
    double cpuSeconds) {}

package borecensus.evaluate;

/**
 * What was measured on one fleet.
 *
 * @param ap average precision by fault probability
 * @param apOfNorms the same by the exact likelihood under the learned norms
 * @param apBest the same under the true parameters
 * @param apOfRule the same of the fixed rule
 * @param probabilitySum of all engines
 * @param marked engines at the nominal false share
 * @param found faulty engines among them
 * @param foundBest what the best ranking finds by the same rule
 */
record SeedResult(
    EvaluationScenario scenario,
    long seed,
    int engines,
    int tests,
    int faulty,
    double ap,
    double apOfNorms,
    double apBest,
    double apOfRule,
    double probabilitySum,
    int marked,
    int found,
    int markedBest,
    int foundBest,
    Reliability reliability,
    NormErrors norms,
    double wallSeconds,
    double cpuSeconds) {}

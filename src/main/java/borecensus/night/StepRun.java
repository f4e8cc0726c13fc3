package borecensus.night;

/**
 * One step of a night as it went.
 *
 * @param wallSeconds from its beginning to its end, or to where the night broke off
 * @param outcome what it came to; empty when the night broke off in it
 * @param work of its tasks
 */
record StepRun(String step, double wallSeconds, String outcome, StepWork work) {}

package borecensus.norms;

import java.util.List;

/**
 * One engine's say on variances: a scatter matrix whose expectation is, per degree of freedom, the
 * known part plus the sum of variance x pattern.
 *
 * @param weight how far the engine counts
 * @param degrees of freedom in the scatter
 */
record ComponentItem(
    double weight,
    double degrees,
    double[][] scatter,
    double[][] known,
    List<ComponentPattern> patterns) {}

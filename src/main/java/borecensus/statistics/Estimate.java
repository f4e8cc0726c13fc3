package borecensus.statistics;

/**
 * A number with the variance of its normal error.
 *
 * @param variance zero or more
 */
public record Estimate(double value, double variance) {}

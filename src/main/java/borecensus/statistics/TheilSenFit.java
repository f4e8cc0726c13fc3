package borecensus.statistics;

/**
 * A robust straight line.
 *
 * @param slope the median of the pairwise slopes, in units of y per unit of x; NaN without two
 *     points of different x
 * @param intercept the median of y - slope x, in the unit of y; NaN with the slope
 * @param slopeStandardError half the Sen-Gilbert interval over its normal quantile, in the unit of
 *     the slope; NaN with fewer than {@value TheilSen#MIN_POINTS_FOR_ERROR} points. It errs towards
 *     caution on few points (half as large again as it should be for 5, a fifth for 8), and is 0
 *     when the middle slopes are tied
 * @param points how many points were given
 */
public record TheilSenFit(double slope, double intercept, double slopeStandardError, int points) {}

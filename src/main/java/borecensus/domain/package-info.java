/**
 * The words of the trade as values: families, gauges, sheets, tests, engines, and the fixed codes.
 *
 * <p>Everything here is immutable and free of any framework. An absent number is {@link Double#NaN}
 * and an absent text is the empty string; both are said at the component concerned. Units stand in
 * the names.
 */
package borecensus.domain;

/**
 * Order statistics, robust scales, trends, the range of normal samples, and false-discovery
 * bookkeeping.
 *
 * <p>Pure functions of arrays, free of any framework. No input array is ever changed. Unless a
 * method says otherwise, empty input or an input that holds {@link Double#NaN} gives {@link
 * Double#NaN}: drop absent numbers before, so that the sample size you report is the one that was
 * used.
 */
package borecensus.statistics;

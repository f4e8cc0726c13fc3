/**
 * What inspections teach: whether an engine was marked when it was opened, hit rates with their
 * limits, and the few unmarked engines that are drawn at random so that the rates are not biased by
 * the ranking.
 */
package borecensus.inspections;

/**
 * One freshly filled sheet against the published snapshot, at the bay and without Spark: settled
 * among the vehicle's earlier sheets and judged as the night would do it, then told in plain words.
 * Everything here is advice to inspect, never a clearance to run.
 */
package borecensus.bay;

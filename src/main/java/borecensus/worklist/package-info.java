/**
 * What the workshop is told: which engines to look at first, why in plain numbers, what to do next,
 * and with which cautions. Everything here is advice to inspect, never a clearance to run.
 */
package borecensus.worklist;

/**
 * Speed at scale: whole nights on large drawn fleets, and their relational part beside the same in
 * SQL.
 */
package borecensus.benchmark;

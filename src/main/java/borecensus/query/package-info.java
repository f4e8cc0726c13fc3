/**
 * One read-only SQL statement over the published snapshot's Parquet tables.
 *
 * <p>The statement and everything in the store's text are taken as hostile: the database that
 * answers can open the snapshot's table files and nothing else.
 */
package borecensus.query;

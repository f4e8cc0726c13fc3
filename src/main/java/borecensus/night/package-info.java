/**
 * The nightly job on Spark: thin stages that move rows and call the pure packages. Rows and records
 * are converted here and nowhere else.
 */
package borecensus.night;

/**
 * Settled sheets to tests at reference conditions: kilopascal, ambient pressure from the most
 * trusted source on the sheet, and gauge pressure as it would read in standard sea-level air.
 */
package borecensus.normalise;

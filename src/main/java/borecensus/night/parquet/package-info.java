/**
 * Tables as Parquet files, written straight from where their rows are made, and their columns read
 * back straight to bytes.
 */
package borecensus.night.parquet;

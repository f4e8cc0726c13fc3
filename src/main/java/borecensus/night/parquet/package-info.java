/** Published tables as Parquet files, written straight from where their rows are made. */
package borecensus.night.parquet;

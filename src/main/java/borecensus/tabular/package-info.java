/**
 * Tables of text from outside: CSV in the dialects that spreadsheets write, gzip, and Parquet, read
 * as records of text cells under a header. Nothing here knows what a column means.
 */
package borecensus.tabular;

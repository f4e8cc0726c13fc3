package borecensus.night.parquet;

/** Where equal values of a column are looked for, so that they are stored once. */
enum Repeats {
  /** Among neighbours: others hardly ever come again. */
  NEIGHBOURS,
  /** Among all values of a row group. */
  ANYWHERE
}

package borecensus.tabular;

/** Which sign stands before the decimals in a file. */
public enum DecimalMark {
  /** Comma- or tab-separated files, and typed files. */
  POINT,
  /** Semicolon-separated files, as spreadsheets in many countries write them. */
  COMMA
}

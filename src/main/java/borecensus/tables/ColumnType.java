package borecensus.tables;

/** The types that published columns have, with the words that the data dictionary uses. */
public enum ColumnType {
  TEXT("text"),
  INTEGER("integer, 32 bit"),
  LONG("integer, 64 bit"),
  REAL("real, 64 bit"),
  TRUTH("true or false"),
  DATE("date"),
  TIME("date and time, UTC where the sheet gave a zone"),
  TEXTS("list of text"),
  INTEGERS("list of integers"),
  REALS("list of reals, 64 bit");

  private final String words;

  ColumnType(String words) {
    this.words = words;
  }

  /** How the data dictionary names it. */
  public String words() {
    return words;
  }
}

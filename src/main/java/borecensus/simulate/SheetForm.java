package borecensus.simulate;

/** The forms that sheet files take. */
public enum SheetForm {
  /** One row per test, comma separated. */
  PLAIN,
  /** The same, compressed. */
  GZIP,
  /** One row per cylinder. */
  LONG,
  /** One row per cylinder, compressed. */
  LONG_GZIP,
  /** Semicolons, decimal commas, byte order mark and CRLF, as office programs export. */
  SEMICOLON,
  /** Remarks with commas, quotes and line breaks. */
  QUOTED_REMARKS,
  /** Two empty columns at the right-hand edge. */
  TRAILING_COLUMNS;

  /** Whether each cylinder has a row of its own. */
  public boolean oneRowPerCylinder() {
    return this == LONG || this == LONG_GZIP;
  }

  /** What the file name ends with. */
  public String extension() {
    return this == GZIP || this == LONG_GZIP ? ".csv.gz" : ".csv";
  }
}

package borecensus.printing;

import java.util.Locale;

/** The paper that the pages are laid out for. */
public enum Paper {
  A4("A4", 297, 1.0),
  LETTER("letter", 279, 0.83);

  /** Left free on every side, mm. */
  static final int MARGIN_MM = 9;

  private final String cssName;
  private final int heightMm;
  private final double boxHeight;

  /**
   * @param boxHeight height of the boxes to write in, A4 = 1: shorter paper holds the same words
   */
  Paper(String cssName, int heightMm, double boxHeight) {
    this.cssName = cssName;
    this.heightMm = heightMm;
    this.boxHeight = boxHeight;
  }

  /** The part of the style that depends on the paper. */
  String style() {
    return String.format(
        Locale.ROOT,
        "@page { size: %s portrait; margin: %dmm; }\n"
            + ":root { --sheet-height: %dmm; --box-height: %.2f; }\n",
        cssName,
        MARGIN_MM,
        // A millimetre less, so that rounding never pushes an empty page out of the printer.
        heightMm - 2 * MARGIN_MM - 1,
        boxHeight);
  }

  /** The word used on the command line. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}

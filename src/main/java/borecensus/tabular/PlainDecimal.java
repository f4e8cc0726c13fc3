package borecensus.tabular;

/**
 * Short decimal numbers as nearly every sheet has them, {@code 1075} or {@code -2.5}, read digit by
 * digit and exactly: up to 15 digits are a whole number below 2^53, powers of ten up to 10^22 are
 * doubles, and one division of two doubles is rounded correctly (Clinger, 1990, How to read
 * floating point numbers accurately, section 3).
 */
final class PlainDecimal {
  /** The answer for a text that has another form. */
  static final double OTHER = Double.NaN;

  private static final int MOST_DIGITS = 15;

  private static final double[] POWER_OF_TEN = {
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
  };

  private PlainDecimal() {}

  /**
   * The number; {@link #OTHER} when the text is anything but an optional sign, digits, and possibly
   * a mark with digits behind it, or has more than 15 digits.
   */
  static double parse(String text, char mark) {
    int start = startsWithSign(text) ? 1 : 0;
    int end = text.length();
    if (end - start > MOST_DIGITS + 1) {
      return OTHER;
    }
    long digits = 0;
    int markAt = end;
    for (int i = start; i < end; i++) {
      int digit = text.charAt(i) - '0';
      if (digit >= 0 && digit <= 9) {
        digits = 10 * digits + digit;
      } else if (text.charAt(i) == mark && markAt == end) {
        markAt = i;
      } else {
        return OTHER;
      }
    }
    int decimals = end - markAt - 1;
    boolean usual = markAt > start && decimals != 0 && end - start - (decimals > 0 ? 1 : 0) <= 15;
    return usual ? signed(text, decimals > 0 ? digits / POWER_OF_TEN[decimals] : digits) : OTHER;
  }

  private static boolean startsWithSign(String text) {
    return !text.isEmpty() && (text.charAt(0) == '-' || text.charAt(0) == '+');
  }

  private static double signed(String text, double size) {
    return text.charAt(0) == '-' ? -size : size;
  }
}

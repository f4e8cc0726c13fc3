package borecensus.tabular;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads numbers as people and spreadsheets write them, and refuses what could mean two things.
 *
 * <p>With a decimal point only plain numbers are read. With a decimal comma, {@code 1.013,25} is
 * read as 1013.25 and {@code 151.5} as 151.5, but {@code 123.456} alone is refused: it may be a
 * thousand times larger than it looks. {@code 0.850} is not: no thousands begin with a zero.
 */
public final class NumberText {
  private static final Pattern PLAIN =
      Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d{1,3})?");
  private static final Pattern COMMA =
      Pattern.compile("[+-]?([1-9]\\d{0,2}(\\.\\d{3})+|\\d+)(,(\\d+))?|[+-]?,\\d+");
  private static final Pattern AMBIGUOUS_POINT = Pattern.compile("[+-]?[1-9]\\d{0,2}\\.\\d{3}");

  private NumberText() {}

  /**
   * The number, NaN for a blank cell.
   *
   * @throws NumberFormatException when the text is no number or could mean two; the message says
   *     which, in words that follow "because"
   */
  public static double parse(String cell, DecimalMark mark) {
    String text = TableHeader.stripped(cell);
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double plain = PlainDecimal.parse(text, mark == DecimalMark.POINT ? '.' : ',');
    return Double.isNaN(plain) ? parseAnyForm(text, mark) : plain + 0.0; // a minus zero is a zero
  }

  /** A number in any form; what {@link PlainDecimal} reads is the same here. */
  static double parseAnyForm(String text, DecimalMark mark) {
    double value = mark == DecimalMark.POINT ? parsePoint(text) : parseComma(text);
    if (Double.isInfinite(value)) {
      throw new NumberFormatException("it is too large");
    }
    return value + 0.0;
  }

  private static double parsePoint(String text) {
    if (PLAIN.matcher(text).matches()) {
      return Double.parseDouble(text);
    }
    throw new NumberFormatException(
        text.indexOf(',') >= 0
            ? "a decimal comma is read in semicolon-separated files only"
            : "it is not a number");
  }

  private static double parseComma(String text) {
    if (AMBIGUOUS_POINT.matcher(text).matches()) {
      throw new NumberFormatException("the point may part thousands or decimals");
    }
    Matcher comma = COMMA.matcher(text);
    if (comma.matches()) {
      return Double.parseDouble(text.replace(".", "").replace(',', '.'));
    }
    if (PLAIN.matcher(text).matches()) {
      return Double.parseDouble(text);
    }
    throw new NumberFormatException("it is not a number");
  }
}

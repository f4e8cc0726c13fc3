package borecensus.report;

import java.util.Locale;
import java.util.regex.Pattern;

/** Texts and numbers as the page shows them. */
final class ShownText {
  private ShownText() {}

  /** Characters that are not seen but change what is seen, such as a reversal of the direction. */
  private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Co}\\p{Cn}]");

  /** The text with unseen characters made visible; a missing one as a dash. Not yet escaped. */
  static String text(String text) {
    return text == null || text.isBlank() ? "–" : UNSEEN.matcher(text).replaceAll("\uFFFD");
  }

  /** A probability in per cent that never claims certainty. */
  static String probability(double probability) {
    if (Double.isNaN(probability)) {
      return "–";
    }
    if (probability > 0.99) {
      return "> 99 %";
    }
    return probability < 0.01 ? "< 1 %" : String.format(Locale.ROOT, "%.0f %%", 100 * probability);
  }

  /** Whole number with comma groups. */
  static String count(long count) {
    return String.format(Locale.ROOT, "%,d", count);
  }

  /** One decimal; a dash for NaN. */
  static String oneDecimal(double value) {
    return Double.isNaN(value) ? "–" : String.format(Locale.ROOT, "%.1f", value);
  }
}

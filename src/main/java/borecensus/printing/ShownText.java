package borecensus.printing;

import java.util.regex.Pattern;

/** Texts from outside as a page shows them. */
final class ShownText {
  private ShownText() {}

  /** Longer names are cut on the page, so that it stays one page; the file has them whole. */
  private static final int LONGEST = 64;

  /** Characters that are not seen but change what is seen, such as a reversal of the direction. */
  private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Co}\\p{Cn}]");

  /** The text, cut and with unseen characters made visible; a blank one empty. Not escaped. */
  static String text(String text) {
    if (text == null || text.isBlank()) {
      return "";
    }
    String seen = UNSEEN.matcher(text.strip()).replaceAll("\uFFFD");
    return seen.codePointCount(0, seen.length()) <= LONGEST
        ? seen
        : seen.substring(0, seen.offsetByCodePoints(0, LONGEST - 1)) + "…";
  }
}

package borecensus.report;

import borecensus.domain.Family;
import borecensus.domain.Reason;
import borecensus.worklist.PlainNumbers;
import borecensus.worklist.WorkListEntry;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** Texts and numbers as the page shows them. */
final class ShownText {
  private ShownText() {}

  /** Characters that are not seen but change what is seen, such as a reversal of the direction. */
  private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Co}\\p{Cn}]");

  /** No id and no sentence of ours is longer; what comes from outside may be. */
  private static final int LONGEST = 600;

  /**
   * The text with unseen characters made visible, cut where it is longer than any of ours; a
   * missing one as a dash. Not yet escaped.
   */
  static String text(String text) {
    if (text == null || text.isBlank()) {
      return "–";
    }
    String seen = isPlain(text) ? text : UNSEEN.matcher(text).replaceAll("\uFFFD");
    return seen.length() <= LONGEST ? seen : seen.substring(0, LONGEST) + "…";
  }

  /** Whether a text has nothing but the visible characters of ASCII, as nearly all have. */
  private static boolean isPlain(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) < ' ' || text.charAt(i) > '~') {
        return false;
      }
    }
    return true;
  }

  /** A probability in per cent that never claims certainty. */
  static String probability(double probability) {
    if (Double.isNaN(probability)) {
      return "–";
    }
    if (probability > 0.99) {
      return "> 99 %";
    }
    return probability < 0.01 ? "< 1 %" : PlainNumbers.fixed(0, 100 * probability) + " %";
  }

  /** Whole number with comma groups. */
  static String count(long count) {
    return String.format(Locale.ROOT, "%,d", count);
  }

  /** One decimal; a dash for NaN. */
  static String oneDecimal(double value) {
    return Double.isNaN(value) ? "–" : PlainNumbers.fixed(1, value);
  }

  /** Rounded to a whole number with comma groups; a dash for NaN. */
  static String whole(double value) {
    return Double.isNaN(value) ? "–" : PlainNumbers.thousands(value);
  }

  /** Per cent with its sign and one decimal; a dash for NaN. */
  static String signedPct(double valuePct) {
    if (Double.isNaN(valuePct)) {
      return "–";
    }
    long tenths = Math.round(10 * valuePct);
    String sign = tenths == 0 ? "" : tenths < 0 ? "−" : "+";
    return sign + Math.abs(tenths) / 10 + '.' + Math.abs(tenths) % 10 + " %";
  }

  /** With its first letter in capitals. */
  static String capitalised(String words) {
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  /** Who is meant; empty when it is the measurement and not the engine. */
  static String suspects(WorkListEntry entry) {
    List<Integer> cylinders = entry.suspectCylinders();
    if (cylinders.isEmpty()) {
      return entry.mainReason() == Reason.DOUBTFUL_MEASUREMENT ? "" : "whole engine";
    }
    String numbers = String.join(", ", cylinders.stream().map(String::valueOf).toList());
    return (cylinders.size() == 1 ? "cylinder " : "cylinders ") + numbers;
  }

  /** The maker's limits as far as the register states them; empty when it states none. */
  static String limits(Family family) {
    List<String> limits = new ArrayList<>();
    if (!Double.isNaN(family.nominalKpa())) {
      limits.add("nominal " + PlainNumbers.thousands(family.nominalKpa()) + " kPa");
    }
    if (!Double.isNaN(family.minKpa())) {
      limits.add("minimum " + PlainNumbers.thousands(family.minKpa()) + " kPa");
    }
    if (!Double.isNaN(family.maxSpreadPct())) {
      limits.add("spread at most " + PlainNumbers.percent(family.maxSpreadPct()));
    }
    return String.join(", ", limits);
  }
}

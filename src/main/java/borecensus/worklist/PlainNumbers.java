package borecensus.worklist;

import java.util.Locale;

/** Numbers as a sentence carries them. */
public final class PlainNumbers {
  private PlainNumbers() {}

  private static final double RAREST = 1e-6;
  private static final int GROUP = 3;
  private static final long[] SCALES = {1, 10, 100, 1_000, 10_000};
  private static final double MOST_QUICK = 1e9;
  private static final double NEAR_HALF = 1e-6;

  /** Whole number with comma groups, such as 143,000; empty for NaN. */
  public static String thousands(double value) {
    return Double.isNaN(value) ? "" : grouped(Math.round(value));
  }

  /** Per cent with one decimal below ten and none from there, such as 4.2 % or 22 %. */
  public static String percent(double valuePct) {
    if (Double.isNaN(valuePct)) {
      return "";
    }
    return fixed(Math.abs(valuePct) < 9.95 ? 1 : 0, valuePct + 0.0) + " %";
  }

  /**
   * With a fixed number of decimals, as the platform's {@code %.2f} gives them. The platform takes
   * its pattern apart each time, and a large fleet's list has a million such numbers.
   *
   * @param decimals from 0 to 4
   */
  public static String fixed(int decimals, double value) {
    long scale = SCALES[decimals];
    double scaled = value * scale;
    double below = Math.floor(scaled);
    double rest = scaled - below;
    // Close to a half the platform rounds what the number's own decimals say.
    if (!(value > 0 && scaled < MOST_QUICK) || Math.abs(rest - 0.5) < NEAR_HALF) {
      return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }
    long rounded = (long) below + (rest > 0.5 ? 1 : 0);
    if (decimals == 0) {
      return Long.toString(rounded);
    }
    String tail = Long.toString(scale + rounded % scale);
    return rounded / scale + "." + tail.substring(1);
  }

  /** Such as 1 test, 4 tests, 1,204 tests. */
  public static String count(long count, String noun) {
    return grouped(count) + ' ' + noun + (count == 1 ? "" : "s");
  }

  /** With a comma before every group of three digits but the first. */
  private static String grouped(long value) {
    StringBuilder text = new StringBuilder(Long.toString(value));
    int first = value < 0 ? 1 : 0;
    for (int at = text.length() - GROUP; at > first; at -= GROUP) {
      text.insert(at, ',');
    }
    return text.toString();
  }

  /**
   * How rare, as a count of healthy engines; empty for NaN and for what at least half of them do.
   * One in so many is rounded to two digits, for the tail of a norm is known no better.
   */
  public static String rarity(double tailProbability) {
    if (Double.isNaN(tailProbability) || tailProbability >= 0.5) {
      return "";
    }
    if (tailProbability < RAREST) {
      return "fewer than 1 healthy engine in 1,000,000 would";
    }
    double oneIn = 1 / tailProbability;
    double step = Math.pow(10, Math.floor(Math.log10(oneIn)) - 1);
    double rounded = oneIn < 10 ? Math.round(oneIn) : Math.round(oneIn / step) * step;
    return "1 healthy engine in " + thousands(rounded) + " would";
  }
}

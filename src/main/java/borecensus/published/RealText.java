package borecensus.published;

import com.fasterxml.jackson.core.io.NumberOutput;

/**
 * The shortest decimal that gives the same double again. Readings and most other figures of a sheet
 * have one decimal at most: k / 10 is then the shortest itself, since of two decimals of up to 15
 * digits no two give one double. Those below some thousands are kept.
 */
final class RealText {
  private static final double STEPS_PER_UNIT = 10;

  /** From ten million on a double is written with an exponent. */
  private static final long FIRST_STEP_WITH_EXPONENT = 100_000_000;

  private static final String[] KNOWN = new String[1 << 15];

  private RealText() {}

  /** The text of a finite number. */
  static String of(double value) {
    if (value > 0 && value < FIRST_STEP_WITH_EXPONENT / STEPS_PER_UNIT) {
      int steps = (int) (value * STEPS_PER_UNIT + 0.5);
      if (steps / STEPS_PER_UNIT == value) {
        return steps < KNOWN.length ? known(steps) : text(steps);
      }
    }
    return NumberOutput.toString(value, true);
  }

  /** Whoever comes first makes the text; that two may make it at once is no harm. */
  private static String known(int steps) {
    String text = KNOWN[steps];
    if (text == null) {
      text = text(steps);
      KNOWN[steps] = text;
    }
    return text;
  }

  private static String text(int steps) {
    return steps / 10 + "." + steps % 10;
  }
}

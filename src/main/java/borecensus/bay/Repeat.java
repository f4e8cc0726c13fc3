package borecensus.bay;

import java.util.List;
import java.util.Locale;

/**
 * Something to measure again while the plugs are out.
 *
 * @param cylinders the cylinders meant; empty for the whole test
 * @param sentence why, and what to do
 */
public record Repeat(Kind kind, List<Integer> cylinders, String sentence) {

  /** What is to be measured again. */
  public enum Kind {
    /** The test as a whole is not believed. */
    WHOLE_TEST,
    /** A cylinder has no reading. */
    NOT_READ,
    /** A cylinder's pressure was still building when the cranking stopped. */
    STILL_RISING,
    /** One more crank may change what is said of the engine. */
    SECOND_CRANK,
    /** What the gauge itself reads high or low is not known. */
    SECOND_GAUGE;

    /** The word used in machine-readable answers. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public Repeat {
    cylinders = List.copyOf(cylinders);
  }
}

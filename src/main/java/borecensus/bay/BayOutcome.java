package borecensus.bay;

import java.util.Locale;

/** What a checked sheet comes to, the least serious first. */
public enum BayOutcome {
  NOTHING_STANDS_OUT("nothing stands out"),
  REPEAT("repeat before closing up"),
  INSPECT("inspect before closing up");

  private final String words;

  BayOutcome(String words) {
    this.words = words;
  }

  /** The word used in machine-readable answers. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** In plain words. */
  public String words() {
    return words;
  }

  /** The more serious of two. */
  BayOutcome or(BayOutcome other) {
    return compareTo(other) >= 0 ? this : other;
  }
}

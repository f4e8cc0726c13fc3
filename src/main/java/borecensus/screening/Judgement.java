package borecensus.screening;

import java.util.Locale;

/** Whether an engine could be judged, and if not, why. */
public enum Judgement {
  JUDGED,
  /** Fewer engines of its family have trusted tests than a norm needs. */
  FAMILY_TOO_SMALL,
  /** No dry test since the last work that restarts the history. */
  NEVER_TESTED,
  /** Dry tests, but none that is believed. */
  ONLY_DOUBTFUL_TESTS;

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}

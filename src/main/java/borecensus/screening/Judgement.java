package borecensus.screening;

import java.util.Locale;

/** Whether an engine could be judged, and if not, why. */
public enum Judgement {
  JUDGED,
  /**
   * Judged, by a norm of fewer than five engines: its scatter is what the fleet shows, its level is
   * known with a wide error, so that little but the pattern between cylinders can be seen.
   */
  JUDGED_SMALL_FAMILY,
  /** Nothing at all is known of what its family reads. */
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

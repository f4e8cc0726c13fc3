package borecensus.causes;

import borecensus.domain.Cause;
import java.util.Locale;

/**
 * What a wet test or the first stroke may show, and how probable that is under each cause. Only the
 * ratios between causes count. The directions are the trade's, the figures a choice.
 */
public enum CauseEvidence {
  /** Oil seals worn rings for a few strokes, and nothing else. */
  WET_RISES(
      "a rise of 10 % or more with oil, which points to rings or bore",
      "a car maker's workshop manual of 1997: a rise of 10 % or more; likelihoods: common practice,"
          + " no source",
      0.10,
      0.80,
      0.10,
      0.15,
      0.15,
      0.30,
      0.30),
  WET_HARDLY_RISES(
      "hardly a rise with oil, which points to a valve or the gasket",
      "a car maker's workshop manual of 1997: no rise; likelihoods: common practice, no source",
      0.80,
      0.10,
      0.80,
      0.70,
      0.60,
      0.50,
      0.50),
  FIRST_STROKE_BUILDS(
      "a low first stroke that builds, which points to rings or bore",
      "makers' workshop manuals; likelihoods: common practice, no source",
      0.15,
      0.70,
      0.20,
      0.20,
      0.25,
      0.30,
      0.30),
  FIRST_STROKE_STAYS(
      "no more building after the first stroke than elsewhere, which points to a valve or the"
          + " gasket",
      "makers' workshop manuals; likelihoods: common practice, no source",
      0.60,
      0.15,
      0.50,
      0.40,
      0.40,
      0.40,
      0.40);

  private final String meaning;
  private final String source;
  private final double[] likelihoods;

  CauseEvidence(String meaning, String source, double... likelihoods) {
    this.meaning = meaning;
    this.source = source;
    this.likelihoods = likelihoods;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What was seen and what that points to, in words. */
  public String meaning() {
    return meaning;
  }

  /** Who says so. */
  public String source() {
    return source;
  }

  /** How probable this is where the cause is the given one. */
  public double likelihood(Cause cause) {
    return likelihoods[cause.ordinal()];
  }
}

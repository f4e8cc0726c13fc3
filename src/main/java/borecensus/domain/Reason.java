package borecensus.domain;

import java.util.Locale;

/** What is unusual about an engine. */
public enum Reason {
  LOW_CYLINDER("one cylinder reads low against the others"),
  LOW_ADJACENT_PAIR("two neighbouring cylinders read low together"),
  LOW_BANK("one bank reads low against the other"),
  LOW_OVERALL("the whole engine reads low for its family and distance"),
  HIGH_CYLINDER("one cylinder reads high against the others"),
  FALLING_CYLINDER("one cylinder has been falling from test to test"),
  FALLING_LEVEL("the whole engine has been falling faster than its peers"),
  BELOW_MAKER_LIMIT("the last test is outside the maker's limits"),
  DOUBTFUL_MEASUREMENT("the measurement itself is in doubt");

  private final String meaning;

  Reason(String meaning) {
    this.meaning = meaning;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it says about the engine, in plain words. */
  public String meaning() {
    return meaning;
  }
}

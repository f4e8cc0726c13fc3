package borecensus.inspections;

import java.util.Locale;

/** Why an engine was inspected, as far as the sheets and the draws tell. */
public enum InspectionGroup {
  /** It was marked on the day. */
  MARKED("marked on the day of the inspection"),
  /** It was not marked, and drawn at random: these tell what the marks miss. */
  DRAWN_AT_RANDOM("not marked, and drawn at random"),
  /** It was not marked, and chosen by somebody: their rate says little of other engines. */
  NOT_MARKED("not marked, and chosen for another reason"),
  NOT_JUDGED("not to be judged on the day of the inspection");

  private final String meaning;

  InspectionGroup(String meaning) {
    this.meaning = meaning;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it holds, in plain words. */
  public String meaning() {
    return meaning;
  }
}

package borecensus.domain;

import java.util.Locale;

/** Why a test is accepted but not believed: its readings are kept and used for no norm. */
public enum Doubt {
  CLOSED_THROTTLE("the throttle was closed", "Repeat the test with the throttle held wide open."),
  TOO_FEW_STROKES(
      "too few compression strokes", "Repeat with the same, sufficient strokes on each cylinder."),
  COPIED_READINGS(
      "the same readings stand on another date",
      "Find the original sheet, or repeat the test: copied numbers say nothing new."),
  NEVER_FALLING(
      "the readings never fall in test order",
      "Repeat, releasing the gauge to zero after every cylinder."),
  COLD_ENGINE(
      "the engine was cold in a family that is tested warm", "Repeat with the engine warm."),
  CYLINDERS_TRANSPOSED(
      "two cylinders look written down in each other's place",
      "Check the order of the readings on the paper sheet; they are never exchanged for you."),
  LOW_TOGETHER(
      "everything tested that day with this gauge read low together",
      "Check the battery, the throttle and the gauge with its hose; then repeat the test."),
  HIGH_TOGETHER(
      "everything tested that day with this gauge read high together",
      "Check the gauge, its unit and the ambient pressure on the sheets; then repeat the test."),
  SEA_LEVEL_PRESSURE_AT_ALTITUDE(
      "the station pressure looks like one reduced to sea level",
      "Write the pressure at the site itself, or put this value under qnh_hpa.");

  private final String meaning;
  private final String remedy;

  Doubt(String meaning, String remedy) {
    this.meaning = meaning;
    this.remedy = remedy;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What is wrong, in plain words that follow "because". */
  public String meaning() {
    return meaning;
  }

  /** What to do about it. */
  public String remedy() {
    return remedy;
  }
}

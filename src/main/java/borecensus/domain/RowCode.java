package borecensus.domain;

import java.util.Locale;

/** Why a row of a sheet file was refused, and what the person who wrote it can do. */
public enum RowCode {
  UNKNOWN_VEHICLE(
      "the vehicle is not in vehicles.csv, or its family is not usable",
      "Correct the vehicle_id, or add the vehicle and its family to the registers."),
  UNKNOWN_GAUGE(
      "the gauge is not in gauges.csv", "Correct the gauge_id, or add the gauge to gauges.csv."),
  UNKNOWN_SITE(
      "the site is not in sites.csv, or no elevation can be found",
      "Correct the site_id, add the site to sites.csv, or write the station pressure."),
  BAD_NUMBER("the cell is not a number", "Write a plain number, such as 151.5."),
  BAD_DATE(
      "the date cannot be read", "Write year-month-day, such as 2026-03-31 or 2026-03-31T14:05."),
  FUTURE_DATE("the test is dated after the night", "Correct the date."),
  UNIT_UNKNOWN("the unit is none of ours", "Write psi, kpa, bar, mpa or kgf_cm2."),
  UNIT_IMPLAUSIBLE(
      "no engine of this family can read so in this unit, but in another unit it could",
      "Check the dial and correct the unit; it is never changed for you."),
  CYLINDER_COUNT_MISMATCH(
      "the readings do not fit the family's number of cylinders",
      "Check the vehicle. If the last cylinders were really not read, send the long form."),
  MISSING_READING("no cylinder was read", "Write the readings, or drop the row."),
  READING_OUT_OF_RANGE(
      "the value is outside what is physically possible or what the gauge can show",
      "Check the reading against the paper sheet."),
  ODOMETER_BACKWARDS(
      "the distance or hours do not rise with the date for this engine",
      "Check the odometer and the date; after an engine change, add it to repairs.csv."),
  DUPLICATE_OF(
      "another, different sheet stands under the same test_id",
      "Give each sheet its own test_id; send a correction in a later file."),
  MALFORMED_ROW(
      "the row cannot be read as a sheet", "Check the columns, quotes and separators of the row.");

  private final String meaning;
  private final String remedy;

  RowCode(String meaning, String remedy) {
    this.meaning = meaning;
    this.remedy = remedy;
  }

  /** The word used in tables. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What is wrong, in general. */
  public String meaning() {
    return meaning;
  }

  /** What to do about it. */
  public String remedy() {
    return remedy;
  }
}

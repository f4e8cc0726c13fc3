package borecensus.tables;

import static borecensus.tables.ColumnType.DATE;
import static borecensus.tables.ColumnType.INTEGER;
import static borecensus.tables.ColumnType.INTEGERS;
import static borecensus.tables.ColumnType.LONG;
import static borecensus.tables.ColumnType.REAL;
import static borecensus.tables.ColumnType.REALS;
import static borecensus.tables.ColumnType.TEXT;
import static borecensus.tables.ColumnType.TEXTS;
import static borecensus.tables.ColumnType.TIME;
import static borecensus.tables.ColumnType.TRUTH;

import java.util.List;
import java.util.Locale;

/** The tables of a snapshot. */
public enum Table {
  CYLINDER_READINGS(
      "one cylinder of one accepted dry test",
      List.of("vehicle_id", "tested_at", "test_id", "cylinder"),
      new Column("test_id", TEXT, "the sheet's number"),
      new Column("vehicle_id", TEXT, "the vehicle"),
      new Column("engine_id", TEXT, "the engine in it at the time"),
      new Column("family_id", TEXT, "the engine's family"),
      new Column("tested_at", TIME, "when it was tested"),
      new Column("distance_km", REAL, "odometer, km; null in a family judged over hours"),
      new Column("engine_hours", REAL, "hour meter, h; null where the sheet has none"),
      new Column("cylinder", INTEGER, "cylinder number, from 1"),
      new Column("gauge_id", TEXT, "the instrument"),
      new Column("site_id", TEXT, "where it was tested"),
      new Column("ambient_hpa", REAL, "ambient pressure used, hPa"),
      new Column("ambient_source", TEXT, "where that pressure came from"),
      new Column("gauge_kpa", REAL, "as measured, kPa gauge; null = not read, 0 = dead cylinder"),
      new Column("reference_kpa", REAL, "the same at 1013.25 hPa ambient"),
      new Column(
          "expected_kpa",
          REAL,
          "family norm at that distance and cylinder position, kPa; null if the family has none"),
      new Column("deviation_pct", REAL, "100 x (reference / expected - 1), as read"),
      new Column(
          "z", REAL, "log deviation, gauge offset taken out, in healthy standard deviations"),
      new Column("doubtful", TRUTH, "whether the test is kept but not believed"),
      new Column(
          "doubts",
          TEXTS,
          "why it is not believed; in large fleets by what was known when its tests closed"),
      new Column("source_file", TEXT, "the file it came from"),
      new Column("row_number", LONG, "its first record in that file, from 1")),
  REJECTED_ROWS(
      "one refused row",
      List.of("source_file", "row_number"),
      new Column("source_file", TEXT, "path below the fleet folder"),
      new Column("row_number", LONG, "1 for the first record after the header"),
      new Column("code", TEXT, "why, as one of the row codes"),
      new Column("column", TEXT, "the column concerned; empty for the whole row"),
      new Column("value", TEXT, "the text found there"),
      new Column("message", TEXT, "what is wrong and what to do")),
  REGISTER_NOTES(
      "one row of a register that could be used only in part, or not at all",
      List.of("file", "row_number", "column"),
      new Column("file", TEXT, "the register or sheet file"),
      new Column("row_number", LONG, "1 for the first record after the header; 0 = the whole file"),
      new Column("column", TEXT, "the column concerned"),
      new Column("value", TEXT, "the text found there"),
      new Column("message", TEXT, "what was done about it")),
  FAMILY_NORMS(
      "family x distance grid point",
      List.of("family_id", "distance_km", "engine_hours"),
      new Column("family_id", TEXT, "the family"),
      new Column("distance_km", REAL, "grid point, km; null in a family judged over hours"),
      new Column("engine_hours", REAL, "grid point, h; null in a family judged over distance"),
      new Column("engines", LONG, "engines with trusted tests in the family"),
      new Column("tests", LONG, "their trusted tests"),
      new Column("median_kpa", REAL, "level of the middle healthy engine, kPa at reference"),
      new Column("median_standard_error_pct", REAL, "standard error of median_kpa, per cent"),
      new Column("p01_kpa", REAL, "1 in 100 healthy engines tests lower"),
      new Column("p05_kpa", REAL, "5 in 100 healthy engines test lower"),
      new Column("p25_kpa", REAL, "25 in 100 healthy engines test lower"),
      new Column("p75_kpa", REAL, "75 in 100 healthy engines test lower"),
      new Column("p95_kpa", REAL, "95 in 100 healthy engines test lower"),
      new Column("p99_kpa", REAL, "99 in 100 healthy engines test lower"),
      new Column("spread_median_pct", REAL, "middle spread of healthy tests, per cent"),
      new Column("spread_p95_pct", REAL, "5 in 100 healthy tests spread more"),
      new Column("spread_p99_pct", REAL, "1 in 100 healthy tests spreads more"),
      new Column("judged", TRUTH, "false when nothing is known of the level"),
      new Column(
          "basis",
          TEXT,
          "family; small_family = fewer than five engines, all but the level is other families';"
              + " prior = no engine tested yet, the maker's nominal_kpa give or take 20 %")),
  GAUGE_OFFSETS(
      "gauge",
      List.of("gauge_id"),
      new Column("gauge_id", TEXT, "the instrument"),
      new Column("tests", LONG, "trusted tests made with it"),
      new Column("offset_pct", REAL, "reads high: positive; the mean gauge reads true"),
      new Column("standard_error_pct", REAL, "standard error of the offset")),
  GAUGE_PERIODS(
      "gauge x half-year, for gauges whose tests suffice to tell",
      List.of("gauge_id", "from_on"),
      new Column("gauge_id", TEXT, "the instrument"),
      new Column("from_on", DATE, "first day"),
      new Column("to_on", DATE, "last day"),
      new Column("tests", LONG, "trusted tests made with it then"),
      new Column("offset_pct", REAL, "reads high: positive; against the mean gauge"),
      new Column("standard_error_pct", REAL, "standard error of the offset")),
  PRESSURE_CHECK(
      "the fleet (site_id empty), and each site",
      List.of("site_id"),
      new Column("site_id", TEXT, "the site; empty for the fleet as a whole"),
      new Column("tests", LONG, "trusted tests used"),
      new Column(
          "exponent", REAL, "of ambient pressure in the readings, expected 1; fleet row only"),
      new Column("standard_error", REAL, "standard error of the exponent; fleet row only"),
      new Column("status", TEXT, "agrees, rejected or not_estimable; fleet row only"),
      new Column("residual_pct", REAL, "level at the site against the norms; site rows only"),
      new Column("residual_standard_error_pct", REAL, "standard error of that")),
  ENGINE_STATUS(
      "engine now in service, one per registered vehicle",
      List.of("vehicle_id"),
      new Column("vehicle_id", TEXT, "the vehicle"),
      new Column("engine_id", TEXT, "the engine in it now"),
      new Column("family_id", TEXT, "its family"),
      new Column("last_tested_on", DATE, "last accepted dry test; null if never"),
      new Column("tests_used", INTEGER, "trusted dry tests since the last work on the engine"),
      new Column("distance_km", REAL, "odometer at the last trusted test, km"),
      new Column("engine_hours", REAL, "hour meter there, h; in families judged over hours"),
      new Column("level_pct", REAL, "100 x (mean reading / expected mean - 1), gauge offset out"),
      new Column("level_z", REAL, "the level on the normal scale of healthy engines"),
      new Column("spread_pct", REAL, "100 x (highest - lowest) / highest, last trusted test"),
      new Column("spread_z", REAL, "the spread on the normal scale of healthy tests"),
      new Column("spread_is_lower_bound", TRUTH, "whether a cylinder was not read in that test"),
      new Column("lowest_cylinder", INTEGER, "lowest reading of the last trusted test"),
      new Column("trend_pct_per_100k_km", REAL, "change of level; per 1000 h in hours families"),
      new Column("trend_z", REAL, "the trend against the family's, over its standard error"),
      new Column("fault_probability", REAL, "that the engine, not the measurement, is unhealthy"),
      new Column("q_value", REAL, "expected false share if all at least as probable are marked"),
      new Column("marked", TRUTH, "whether q_value is at most the night's limit"),
      new Column("reasons", TEXTS, "what is unusual, most probable first"),
      new Column("suspect_cylinders", INTEGERS, "cylinders that probably have the fault"),
      new Column("judgement", TEXT, "judged, judged_small_family, or why it is not judged"),
      new Column("inspected_on", DATE, "last inspection since the last work; null if none told"),
      new Column("inspection_result", TEXT, "confirmed or no_fault_found"),
      new Column(
          "cleared_on",
          DATE,
          "when no fault was found: only what later tests show beyond the earlier ones counts")),
  WORK_LIST(
      "marked engine, ranked",
      List.of("rank"),
      new Column("rank", INTEGER, "1 = inspect first"),
      new Column("vehicle_id", TEXT, "the vehicle"),
      new Column("engine_id", TEXT, "the engine"),
      new Column("family_id", TEXT, "its family"),
      new Column("priority", REAL, "100 x fault probability x severity x consequence x cost"),
      new Column("fault_probability", REAL, "that the engine is unhealthy"),
      new Column("main_reason", TEXT, "the most probable reason"),
      new Column("suspect_cylinders", INTEGERS, "cylinders to look at"),
      new Column("evidence", TEXT, "one plain sentence"),
      new Column("next_step", TEXT, "what to test next"),
      new Column("last_tested_on", DATE, "last accepted dry test"),
      new Column("site_id", TEXT, "the vehicle's home site"),
      new Column("likely_causes", TEXTS, "all causes, most probable first"),
      new Column("cause_shares", REALS, "their probabilities, given that a cause is found"),
      new Column("cause_evidence", TEXT, "what wet test and first stroke showed"),
      new Column("limit", TEXT, "what is neared: maker_minimum, or else family_p01"),
      new Column(
          "distance_to_limit_km",
          REAL,
          "km until that limit at the present pace, 0 = reached; null = not neared, not known"),
      new Column("distance_to_limit_lower_km", REAL, "1 in 20 would have less left, km"),
      new Column("distance_to_limit_upper_km", REAL, "1 in 20 would have more, km; null = no end"),
      new Column("hours_to_limit", REAL, "the same in h, in families judged over hours"),
      new Column("hours_to_limit_lower", REAL, "1 in 20 would have less left, h"),
      new Column("hours_to_limit_upper", REAL, "1 in 20 would have more left, h; null = no end"),
      new Column(
          "expected_saving",
          REAL,
          "expected cost of a failure less that of an inspection; null without costs.csv")),
  TEST_PLAN(
      "engine to test next, ranked; a bounded list of engines that are not marked",
      List.of("rank"),
      new Column("rank", INTEGER, "1 = a test would tell most"),
      new Column("vehicle_id", TEXT, "the vehicle"),
      new Column("engine_id", TEXT, "the engine"),
      new Column("family_id", TEXT, "the family"),
      new Column("site_id", TEXT, "the vehicle's home site"),
      new Column("score", REAL, "0 to 100: uncertainty x pace x occasion"),
      new Column("why", TEXT, "in plain words"),
      new Column("last_tested_on", DATE, "last accepted dry test; null if never"),
      new Column("next_service_on", DATE, "from vehicles.csv; null when not stated")),
  AUDIT_DRAW(
      "unmarked engine drawn at random for inspection in a month",
      List.of("month", "draw_order"),
      new Column("month", TEXT, "such as 2026-03; earlier months as they were published"),
      new Column("draw_order", INTEGER, "from 1"),
      new Column("seed", LONG, "made from the month; engine numbers are made from it and the name"),
      new Column("eligible", LONG, "unmarked engines with a fresh test, of which these were drawn"),
      new Column("vehicle_id", TEXT, "the vehicle"),
      new Column("engine_id", TEXT, "the engine"),
      new Column("family_id", TEXT, "the family"),
      new Column("site_id", TEXT, "the vehicle's home site"),
      new Column("last_tested_on", DATE, "last trusted test before the month")),
  FINDING_RATES(
      "family x reason of inspection, of inspected engines alone",
      List.of("family_id", "reason"),
      new Column("family_id", TEXT, "the family; * = the fleet"),
      new Column(
          "reason",
          TEXT,
          "main reason of the mark; or marked, drawn_at_random, not_marked, not_judged"),
      new Column("inspected", LONG, "inspections that told something"),
      new Column("confirmed", LONG, "of these with a fault of the engine"),
      new Column("no_fault_found", LONG, "of these without"),
      new Column("inconclusive", LONG, "inspections that told nothing; not counted"),
      new Column("hit_rate", REAL, "confirmed / inspected; null without any"),
      new Column("hit_rate_lower", REAL, "lower 95 % limit (Wilson 1927)"),
      new Column("hit_rate_upper", REAL, "upper 95 % limit")),
  RUN_SUMMARY(
      "the run",
      List.of("run_id"),
      new Column("run_id", TEXT, "made from the inputs and settings: equal nights, equal id"),
      new Column("as_of", DATE, "the date of the night"),
      new Column("rows_read", LONG, "records of all sheet files taken in so far"),
      new Column("rows_accepted", LONG, "records that stand"),
      new Column("rows_rejected", LONG, "records refused"),
      new Column("rows_superseded", LONG, "repeats, and sheets that a later file corrects"),
      new Column("engines", LONG, "engines now in service"),
      new Column("marked", LONG, "engines marked"),
      new Column("software_version", TEXT, "version of the software"),
      new Column("config_digest", TEXT, "digest of the settings and starting priors"),
      new Column(
          "norms_until",
          DATE,
          "first day whose tests did not teach the norms, in large fleets; null where all did"));

  private final String grain;
  private final List<String> order;
  private final List<Column> columns;

  Table(String grain, List<String> order, Column... columns) {
    this.grain = grain;
    this.order = order;
    this.columns = List.of(columns);
  }

  /** The name of its folder in a snapshot. */
  public String tableName() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What one row is. */
  public String grain() {
    return grain;
  }

  /** The columns by which its rows are in a total order. */
  public List<String> order() {
    return order;
  }

  public List<Column> columns() {
    return columns;
  }
}

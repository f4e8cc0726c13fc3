package borecensus.intake;

import borecensus.domain.Limits;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** The columns of a sheet file, with the range that a number in it may have. */
public enum SheetColumn {
  TEST_ID("the sheet's own number, unique in the fleet"),
  VEHICLE_ID("the vehicle, as in vehicles.csv"),
  ENGINE_SERIAL("serial number on the engine; optional"),
  TESTED_AT("date or date-time, ISO 8601"),
  ODOMETER_KM("odometer, km", 0, 10_000_000),
  ODOMETER_MI("odometer, miles", 0, 6_000_000),
  ENGINE_HOURS("hour meter, h", 0, 1_000_000),
  SITE_ID("where the test was made, as in sites.csv; optional"),
  ALTITUDE_M("altitude of the place, m; optional", -500, 6000),
  STATION_PRESSURE_HPA("barometer at the place itself, hPa; optional", 400, 1100),
  QNH_HPA("pressure reduced to sea level (airfield report), hPa; optional", 850, 1100),
  GAUGE_ID("the instrument, as in gauges.csv"),
  UNIT("psi, kpa, bar, mpa or kgf_cm2"),
  KIND("dry or wet"),
  THROTTLE("open or closed; optional"),
  ENGINE_TEMP_C("engine temperature, degrees Celsius; optional", -60, 200),
  CRANKING_RPM("cranking speed, rpm; optional", 0, 3000),
  STROKES("compression strokes per cylinder; optional", 0, 500),
  ADAPTOR_ID("the adaptor used; optional"),
  REMARKS("free text; optional"),
  CYLINDER("long form: cylinder number, 1 to 16"),
  PRESSURE("long form: peak gauge pressure in the sheet's unit");

  /** Stem of the reading columns: {@code cyl_1} to {@code cyl_16}. */
  public static final String READING_PREFIX = "cyl_";

  /** Stem of the first-stroke columns: {@code first_1} to {@code first_16}. */
  public static final String FIRST_PREFIX = "first_";

  /** Kilometres in an international mile (exact; NIST Special Publication 811, appendix B.8). */
  public static final double KM_PER_MILE = 1.609344;

  private static final Map<String, SheetColumn> BY_NAME = new TreeMap<>();

  static {
    for (SheetColumn column : values()) {
      BY_NAME.put(column.columnName(), column);
    }
  }

  private final String columnName = name().toLowerCase(Locale.ROOT);
  private final String meaning;
  private final double lowest;
  private final double highest;

  SheetColumn(String meaning) {
    this(meaning, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  SheetColumn(String meaning, double lowest, double highest) {
    this.meaning = meaning;
    this.lowest = lowest;
    this.highest = highest;
  }

  /** The name in file headers. */
  public String columnName() {
    return columnName;
  }

  /** What it holds, with its unit. */
  public String meaning() {
    return meaning;
  }

  /** Whether a number is one that this column can hold; NaN (blank) always is. */
  boolean holds(double value) {
    return Double.isNaN(value) || (value >= lowest && value <= highest);
  }

  /** The range in words. */
  String rangeText() {
    return String.format(Locale.ROOT, "%.0f to %.0f", lowest, highest);
  }

  /** Whether a header name is one of the contract's columns. */
  static boolean isKnown(String name) {
    return BY_NAME.containsKey(name)
        || cylinderOf(name, READING_PREFIX) > 0
        || cylinderOf(name, FIRST_PREFIX) > 0;
  }

  /** The cylinder number in a name such as {@code cyl_7}; 0 when it is no such name. */
  static int cylinderOf(String name, String prefix) {
    if (!name.startsWith(prefix)) {
      return 0;
    }
    String digits = name.substring(prefix.length());
    if (!digits.matches("[1-9][0-9]?")) {
      return 0;
    }
    int cylinder = Integer.parseInt(digits);
    return cylinder <= Limits.MAX_CYLINDERS ? cylinder : 0;
  }
}

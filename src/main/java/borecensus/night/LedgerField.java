package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/**
 * The columns of the ledger, in order; a row is a test, a refused or repeated record, or a file.
 */
enum LedgerField implements RowField {
  KIND(DataTypes.StringType),
  FILE_ORDER(DataTypes.LongType),
  SOURCE_FILE(DataTypes.StringType),
  ROW_NUMBERS(DataTypes.createArrayType(DataTypes.LongType, false)),
  TEST_ID(DataTypes.StringType),
  VEHICLE_ID(DataTypes.StringType),
  ENGINE_SERIAL(DataTypes.StringType),
  TESTED_AT(DataTypes.TimestampNTZType),
  ODOMETER_KM(DataTypes.DoubleType),
  ENGINE_HOURS(DataTypes.DoubleType),
  SITE_ID(DataTypes.StringType),
  ALTITUDE_M(DataTypes.DoubleType),
  STATION_PRESSURE_HPA(DataTypes.DoubleType),
  QNH_HPA(DataTypes.DoubleType),
  GAUGE_ID(DataTypes.StringType),
  UNIT(DataTypes.StringType),
  SHEET_KIND(DataTypes.StringType),
  THROTTLE(DataTypes.StringType),
  ENGINE_TEMP_C(DataTypes.DoubleType),
  CRANKING_RPM(DataTypes.DoubleType),
  STROKES(DataTypes.DoubleType),
  ADAPTOR_ID(DataTypes.StringType),
  REMARKS(DataTypes.StringType),
  READINGS(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  FIRST_READINGS(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  CYLINDER_COLUMNS(DataTypes.IntegerType),
  FILE_CYLINDER_COLUMNS(DataTypes.IntegerType),
  CODE(DataTypes.StringType),
  COLUMN(DataTypes.StringType),
  VALUE(DataTypes.StringType),
  MESSAGE(DataTypes.StringType),
  CONTENT_DIGEST(DataTypes.StringType),
  RECORDS(DataTypes.LongType),
  UNKNOWN_COLUMNS(DataTypes.createArrayType(DataTypes.StringType, false));

  private final DataType type;

  LedgerField(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  static StructType schema() {
    return RowField.schemaOf(values());
  }
}

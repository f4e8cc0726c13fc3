package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of one test within a history. */
enum TestField implements RowField {
  TEST_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  TESTED_AT(DataTypes.TimestampNTZType),
  DISTANCE_KM(DataTypes.DoubleType),
  ENGINE_HOURS(DataTypes.DoubleType),
  SITE_ID(DataTypes.StringType),
  GAUGE_ID(DataTypes.StringType),
  SHEET_KIND(DataTypes.StringType),
  AMBIENT_HPA(DataTypes.DoubleType),
  AMBIENT_SOURCE(DataTypes.StringType),
  GAUGE_KPA(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  REFERENCE_KPA(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  FIRST_REFERENCE_KPA(DataTypes.createArrayType(DataTypes.DoubleType, false)),
  ENGINE_TEMP_C(DataTypes.DoubleType),
  CRANKING_RPM(DataTypes.DoubleType),
  DOUBTS(DataTypes.createArrayType(DataTypes.StringType, false)),
  SOURCE_FILE(DataTypes.StringType),
  ROW_NUMBER(DataTypes.LongType);

  private final DataType type;

  TestField(DataType type) {
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

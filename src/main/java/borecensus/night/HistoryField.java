package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/**
 * Columns of what settling gives: a row is an engine's history, or a record that does not stand.
 */
enum HistoryField implements RowField {
  KIND(DataTypes.StringType),
  VEHICLE_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  FAMILY_ID(DataTypes.StringType),
  HOME_SITE_ID(DataTypes.StringType),
  ORIGINAL_ENGINE(DataTypes.BooleanType),
  IN_SERVICE(DataTypes.BooleanType),
  SEGMENT(DataTypes.IntegerType),
  RECORDS(DataTypes.LongType),
  TESTS(DataTypes.createArrayType(TestField.schema(), false)),
  FINDINGS(DataTypes.createArrayType(FindingField.schema(), false)),
  NEXT_SERVICE_ON(DataTypes.DateType),
  FILE_ORDER(DataTypes.LongType),
  SOURCE_FILE(DataTypes.StringType),
  ROW_NUMBER(DataTypes.LongType),
  CODE(DataTypes.StringType),
  COLUMN(DataTypes.StringType),
  VALUE(DataTypes.StringType),
  MESSAGE(DataTypes.StringType);

  /** What a row is. */
  enum Kind {
    HISTORY,
    REFUSED,
    SUPERSEDED
  }

  private final DataType type;

  HistoryField(DataType type) {
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

package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of the vehicle and repair registers as one stream of rows, keyed by vehicle. */
enum RegisterField implements RowField {
  KIND(DataTypes.StringType),
  VEHICLE_ID(DataTypes.StringType),
  ORDER(DataTypes.LongType),
  FAMILY_ID(DataTypes.StringType),
  ENGINE_SERIAL(DataTypes.StringType),
  IN_SERVICE_ON(DataTypes.DateType),
  HOME_SITE_ID(DataTypes.StringType),
  DONE_ON(DataTypes.DateType),
  WORK(DataTypes.StringType),
  NEXT_SERVICE_ON(DataTypes.DateType),
  RESULT(DataTypes.StringType),
  CAUSE(DataTypes.StringType),
  CYLINDERS(DataTypes.createArrayType(DataTypes.IntegerType, false)),
  FILE(DataTypes.StringType),
  ROW_NUMBER(DataTypes.LongType),
  COLUMN(DataTypes.StringType),
  VALUE(DataTypes.StringType),
  MESSAGE(DataTypes.StringType);

  /** What a row is. */
  enum Kind {
    VEHICLE,
    REPAIR,
    FINDING,
    PROBLEM
  }

  private final DataType type;

  RegisterField(DataType type) {
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

package borecensus.night;

import java.util.Locale;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructField;
import org.apache.spark.sql.types.StructType;

/** Columns of the vehicle and repair registers as one stream of rows, keyed by vehicle. */
enum RegisterField {
  KIND(DataTypes.StringType),
  VEHICLE_ID(DataTypes.StringType),
  ORDER(DataTypes.LongType),
  FAMILY_ID(DataTypes.StringType),
  ENGINE_SERIAL(DataTypes.StringType),
  IN_SERVICE_ON(DataTypes.DateType),
  HOME_SITE_ID(DataTypes.StringType),
  DONE_ON(DataTypes.DateType),
  WORK(DataTypes.StringType),
  FILE(DataTypes.StringType),
  ROW_NUMBER(DataTypes.LongType),
  COLUMN(DataTypes.StringType),
  VALUE(DataTypes.StringType),
  MESSAGE(DataTypes.StringType);

  /** What a row is. */
  enum Kind {
    VEHICLE,
    REPAIR,
    PROBLEM
  }

  private final DataType type;

  RegisterField(DataType type) {
    this.type = type;
  }

  String columnName() {
    return name().toLowerCase(Locale.ROOT);
  }

  static StructType schema() {
    StructField[] fields = new StructField[values().length];
    for (RegisterField field : values()) {
      fields[field.ordinal()] = DataTypes.createStructField(field.columnName(), field.type, true);
    }
    return new StructType(fields);
  }
}

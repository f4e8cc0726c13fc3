package borecensus.night;

import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of a record that does not stand; without a code it is superseded, not refused. */
enum StrayField implements RowField {
  FILE_ORDER(DataTypes.LongType),
  SOURCE_FILE(DataTypes.StringType),
  ROW_NUMBER(DataTypes.LongType),
  CODE(DataTypes.StringType),
  COLUMN(DataTypes.StringType),
  VALUE(DataTypes.StringType),
  MESSAGE(DataTypes.StringType);

  private final DataType type;

  StrayField(DataType type) {
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

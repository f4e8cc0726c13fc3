package borecensus.night;

import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Columns of an inspection and of what was known of the engine that day. */
enum InspectionField implements RowField {
  FAMILY_ID(DataTypes.StringType),
  ENGINE_ID(DataTypes.StringType),
  INSPECTED_ON(DataTypes.DateType),
  FAULT(DataTypes.BooleanType),
  CAUSE(DataTypes.StringType),
  PATTERN(DataTypes.StringType),
  FAULT_PROBABILITY(DataTypes.DoubleType);

  private final DataType type;

  InspectionField(DataType type) {
    this.type = type;
  }

  @Override
  public DataType type() {
    return type;
  }

  boolean isIn(InternalRow row) {
    return !row.isNullAt(ordinal());
  }

  /** The text of a row; null when it is absent. */
  String text(InternalRow row) {
    return isIn(row) ? row.getUTF8String(ordinal()).toString() : null;
  }

  static StructType schema() {
    return RowField.schemaOf(values());
  }
}

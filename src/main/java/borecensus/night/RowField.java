package borecensus.night;

import java.util.Arrays;
import java.util.Locale;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructField;
import org.apache.spark.sql.types.StructType;

/** A column of the rows that stages hand on; an enum of them is a schema, in its own order. */
interface RowField {

  /** The enum constant's name. */
  String name();

  DataType type();

  default String columnName() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The columns as a schema; any of them may be null. */
  static StructType schemaOf(RowField[] fields) {
    return new StructType(
        Arrays.stream(fields)
            .map(field -> DataTypes.createStructField(field.columnName(), field.type(), true))
            .toArray(StructField[]::new));
  }
}
